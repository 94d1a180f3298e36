/** What is summed while the wheel turns; time integrals by trapezoids from sample to sample. */
export interface TickSums {
  /** time in which the wheel turned [s] */
  runningS: number;
  /** ∫ t dt, for the mean time [s²] */
  momentS2: number;
  /** angle turned, either way [rad] */
  turnedRad: number;
  /** forwards less backwards [rad] */
  signedRad: number;
  /** path of the carriage along the wheel's rolling [m] */
  travelledM: number;
  /** forwards less backwards [m] */
  signedM: number;
  /** ∫ direction dt: running time forwards less backwards [s] */
  directionS: number;
  /** per channel ∫ x dt */
  readonly integrals: number[];
  /** per channel ∫ direction · x dt */
  readonly along: number[];
  /** per channel ∫ x² dt */
  readonly squares: number[];
  /** per channel Σ mean of the tick · angle turned in it, with its sign: work of a torque */
  readonly byAngle: number[];
  /** the same by path: work of a force */
  readonly byPath: number[];
}

export function noSums(channels: number): TickSums {
  const zeros = (): number[] => new Array<number>(channels).fill(0);
  return { runningS: 0, momentS2: 0, turnedRad: 0, signedRad: 0, travelledM: 0, signedM: 0, directionS: 0, integrals: zeros(), along: zeros(), squares: zeros(), byAngle: zeros(), byPath: zeros() };
}

export function addSums(into: TickSums, from: TickSums): void {
  for (const name of ["runningS", "momentS2", "turnedRad", "signedRad", "travelledM", "signedM", "directionS"] as const) into[name] += from[name];
  for (const name of ["integrals", "along", "squares", "byAngle", "byPath"] as const) from[name].forEach((value, channel) => (into[name][channel] = (into[name][channel] as number) + value));
}

/** Samples in order, the first being the last of those before; all series of one length. */
export interface TickSeries {
  readonly timesS: ArrayLike<number>;
  readonly angleRad: ArrayLike<number>;
  readonly positionM: ArrayLike<number>;
  readonly channels: readonly ArrayLike<number>[];
}

/** A tick is this much of a turn: far above an encoder's step, far below a lug. */
export const tickRad = (2 * Math.PI) / 100;
/** The wheel stands when a tick takes longer [s], or so many times longer than the tick before. */
export const standingS = 5;
export const standingTimes = 5;

/** What belongs to no tick. */
export interface Untold {
  stops: number;
  reversals: number;
  /** in pauses of the log and at missing samples [s] */
  leftOutS: number;
  standingS: number;
  /** turned and travelled in the first tick after each rest, whose time nobody can part from the rest [rad], [m] */
  startRad: number;
  startM: number;
}

/**
 * Cuts what a wheel does into ticks of a hundredth of a turn, either way. Between ticks the ends are compared, so that
 * an encoder's jitter and the noise of a position add up to nothing; a wheel that takes too long for a tick stands, and
 * what is measured then belongs to no tick. Steps longer than `longestStepS` and samples that are missing are left out.
 */
export function wheelTicks(channels: number, onTick: (tick: TickSums, atS: number) => void): { add(series: TickSeries, longestStepS: number): void; readonly told: Untold } {
  const told: Untold = { stops: 0, reversals: 0, leftOutS: 0, standingS: 0, startRad: 0, startM: 0 };
  let tick = noSums(channels);
  let direction = 0;
  let standing = true;
  let longestTickS = standingS;

  function done(atS: number): void {
    const now = Math.sign(tick.signedRad);
    if (direction !== 0 && now !== direction) told.reversals++;
    direction = now;
    if (standing) {
      standing = false;
      told.startRad += Math.abs(tick.signedRad);
      told.startM += now * tick.signedM;
      told.standingS += tick.runningS;
      tick = noSums(channels);
      return;
    }
    longestTickS = Math.min(standingS, standingTimes * tick.runningS);
    tick.turnedRad = Math.abs(tick.signedRad);
    tick.travelledM = now * tick.signedM;
    tick.directionS = now * tick.runningS;
    tick.integrals.forEach((sum, channel) => {
      const mean = sum / tick.runningS;
      tick.along[channel] = now * sum;
      tick.byAngle[channel] = mean * tick.signedRad;
      tick.byPath[channel] = mean * tick.signedM;
    });
    onTick(tick, atS);
    tick = noSums(channels);
  }

  return {
    told,
    add({ timesS, angleRad, positionM, channels: series }, longestStepS) {
      for (let i = 1; i < timesS.length; i++) {
        const dt = (timesS[i] as number) - (timesS[i - 1] as number);
        const angle = (angleRad[i] as number) - (angleRad[i - 1] as number);
        const path = (positionM[i] as number) - (positionM[i - 1] as number);
        let whole = angle + path;
        for (const values of series) whole += (values[i] as number) + (values[i - 1] as number);
        if (dt > longestStepS || Number.isNaN(whole)) {
          told.leftOutS += dt;
          continue;
        }
        tick.runningS += dt;
        tick.momentS2 += dt * ((timesS[i] as number) - dt / 2);
        tick.signedRad += angle;
        tick.signedM += path;
        for (let channel = 0; channel < series.length; channel++) {
          const values = series[channel] as ArrayLike<number>;
          const a = values[i - 1] as number;
          const b = values[i] as number;
          tick.integrals[channel] = (tick.integrals[channel] as number) + ((a + b) / 2) * dt;
          tick.squares[channel] = (tick.squares[channel] as number) + ((a * a + b * b) / 2) * dt;
        }
        if (Math.abs(tick.signedRad) >= tickRad) done(timesS[i] as number);
        else if (tick.runningS > longestTickS) {
          if (!standing) told.stops++;
          standing = true;
          longestTickS = standingS;
          told.standingS += tick.runningS;
          tick = noSums(channels);
        }
      }
    },
  };
}
