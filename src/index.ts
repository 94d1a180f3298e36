// The public API, grouped by floor. What is not here may change without notice.

// the whole job
export { reduceDay, type ReduceOptions } from "./day.ts";
export { version } from "./version.ts";
// core: the nouns
export { InputError, UsageError, showIssue, type Issue } from "./core/errors.ts";
export { combine, estimateFrom, undetermined, type BudgetRow, type Estimate } from "./core/estimate.ts";
export type { Finding, Severity } from "./core/finding.ts";
export type { Fit, FitParameter, FitPoint, Verdict } from "./core/fit.ts";
export type { Measure, Measured } from "./core/measure.ts";
export type { Source, Step } from "./core/provenance.ts";
export { channel, hasChannel, indexAt, sampleCount, timeAt, type Channel, type Doubt, type Recording, type Samples, type TimeBase } from "./core/recording.ts";
export type { Segment } from "./core/segment.ts";
export { convert, parseUnit, showUnit, units, type Quantity, type Unit } from "./core/units.ts";
// numerics: arrays in, numbers out
export { differencePower, effectPower, repeatsNeeded } from "./numerics/comparisonPower.ts";
export { curveFit } from "./numerics/curveFit.ts";
export { chiSquareQuantile, fQuantile, normalQuantile, studentTQuantile } from "./numerics/distributions.ts";
export { frequencyClassFilter, zeroPhaseLowPass } from "./numerics/filter.ts";
export { lineFit, polynomialFit, robustLine } from "./numerics/lineFit.ts";
export { seededRandom } from "./numerics/random.ts";
export { interpolateAt, thinForDrawing } from "./numerics/resample.ts";
export { effectiveSampleSize, lag1Autocorrelation, mean, median, quantile, standardDeviation } from "./numerics/statistics.ts";
// campaign and importers: what people and loggers wrote
export type { BedRecord, Campaign, CampaignIssue, ConeReading, RunPlan, WheelRecord } from "./campaign/campaign.ts";
export { readCampaign } from "./campaign/readCampaign.ts";
export type { Logger, Rig, RunKind } from "./campaign/rigSchema.ts";
export { jsonSchemas } from "./campaign/schemas.ts";
export type { ClockFormat, RawColumn, RawTable, ReadOptions } from "./importers/contract.ts";
export { inspectLog } from "./importers/inspectLog.ts";
export { readLog } from "./importers/readLog.ts";
// processing: the steps of one run, and what they give
export { align } from "./processing/conditioning/align.ts";
export { calibrate } from "./processing/conditioning/calibrate.ts";
export { check } from "./processing/conditioning/check.ts";
export { decouple } from "./processing/conditioning/decouple.ts";
export { revolutionWindow, type RevolutionWindow } from "./processing/conditioning/window.ts";
export { zero } from "./processing/conditioning/zero.ts";
export { deflectionCurveFrom } from "./processing/deflectionCurve.ts";
export type { Band, Curve, CurveSide, DayResult, PullCurve, RunResult, RunVerdict, SlipCurve, SoilResult, Trace } from "./processing/dayResult.ts";
export type { DropFits, PredictedDrop } from "./processing/dropFitsResult.ts";
export type { RankedWheel, Ranking } from "./processing/ranking.ts";
export type { EnduranceResult, LifeFit, LoadDamage, WearTrend, WheelEndurance } from "./processing/enduranceResult.ts";
export { prepareRun, type Prepared } from "./processing/prepareRun.ts";
export { find, type PreparedRun, type Reduced } from "./processing/preparedRun.ts";
export { reduceRun } from "./processing/reduceRun.ts";
export { freeSpinDragsFrom, rollingRadiiFrom, slipRadius, type References } from "./processing/references.ts";
export { meanReading, rollingWindow, slopeReading } from "./processing/rolling.ts";
export { constantReading, derive, toEstimate, type Reading } from "./processing/measures/reading.ts";
export { pullCoefficient } from "./processing/measures/pullCoefficient.ts";
export { brakedSkid, drivenSlip } from "./processing/measures/slip.ts";
// models of a wheel on soil, for design: forces at a load and a slip
export { bekkerTowedWheel, type TowedWheel } from "./models/bekkerWheel.ts";
export { flexibleWheel } from "./models/flexibleWheel.ts";
export { lugStress, shearingRadius, widestLugSpacing, type Lugs } from "./models/lugs.ts";
export { pullSlip, type PullSlip } from "./models/pullSlip.ts";
export { resistiveForceWheel } from "./models/resistiveForceWheel.ts";
export { rigidWheel, rigidWheelForces } from "./models/rigidWheel.ts";
export type { PlateCurve } from "./models/plateCurve.ts";
export type { Drum, NoEquilibrium, WheelForces, WheelModel, WheelSoil, WheelState } from "./models/wheelSoil.ts";
export { widerCircleWheel } from "./models/widerCircleWheel.ts";
// models of soil and of tyres on it
export { bekkerToSi } from "./models/bekkerUnits.ts";
export { bearingFactors, bulldozingResistance, passiveForce, type BearingFactors, type PushedSoil } from "./models/earthPressure.ts";
export { lunarDensity, lunarGravity, lunarMeanDensity, lunarTrafficability } from "./models/lunarSoil.ts";
export { bestTyreEfficiency, mobilityNumber, sandNumber, tractionConstants, type TractionConstants, type TyreOnSoil, type WheelOnSand } from "./models/mobilityNumber.ts";
export { shearStrength } from "./models/mohrCoulomb.ts";
export { plateWidthSplit, type PlateStiffness } from "./models/plateWidthSplit.ts";
export { bekkerAsReece, bekkerPressure, reecePressure, referencePressure, type BekkerSoil, type ReeceSoil } from "./models/pressureSinkage.ts";
export { rateFactor, saturatingPressure, type SaturatingSoil } from "./models/saturatingPressure.ts";
export { humpedShearStress, meanShearMobilised, peakedShearStress, shearMobilised, type HumpedShear } from "./models/shearDisplacement.ts";
export { stressUnderPlate } from "./models/stressUnderPlate.ts";
export { brixiusNumber, brixiusTraction, wismerLuthTraction, type BrixiusTyre, type TyreTraction } from "./models/tyreTraction.ts";
export { reloadPressure, sinkageLeft, type ReloadSoil } from "./models/unloadReload.ts";
// models of size and gravity, of bumps, steps and drops, of wear and life
export { ballisticHop, bumpAcceleration, halfSineAmplification, liftOffSpeed, type Bump, type Hop } from "./models/bumpCrossing.ts";
export { cumulativeDamage, equivalentRange, type CycleBlock, type LifeLine } from "./models/cumulativeDamage.ts";
export { roughnessClass, roughnessRms, slopeDensity } from "./models/groundRoughness.ts";
export { granularScaling, type ScaleFactors, type WheelTrip } from "./models/granularScaling.ts";
export { verticalWeighting } from "./models/rideWeighting.ts";
export { slidingDistance, wornVolume } from "./models/slidingWear.ts";
export { stepLeastSpeed, stepSpeedRatio, type WheelAtStep } from "./models/stepImpact.ts";
export { wheelBlow, type Blow, type WheelContact } from "./models/wheelBlow.ts";
export { demonstratedReliability, missionsNeeded, wheelsNeeded, type LifeClaim } from "./models/zeroFailure.ts";
// fitting
export { pullCurvesFrom } from "./fitting/pullCurves.ts";
export { curveAtSlip, slipAtValue } from "./fitting/readSlipCurve.ts";
export { soilFrom } from "./fitting/soilResult.ts";
// a wheel on a tested soil, for design models
export { readSoilCard } from "./campaign/readSoilCard.ts";
export { readWheelFile } from "./campaign/readWheelFile.ts";
export { soilSchema, type CardWheel, type SoilCard } from "./campaign/soilFileSchema.ts";
export { distanceFromData, type Outside } from "./fitting/distanceFromData.ts";
export { slipForecast, type ForecastRow, type Interval, type SlipForecast, type SlopeRow } from "./fitting/slipForecast.ts";
export { wheelPredictor, type WheelOutcome, type WheelPredictor } from "./fitting/wheelPredictor.ts";
// exporters: a recording as a file for other programs
export { exportRun, type ExportFormat, type ExportedFile, type ExportedRun } from "./exporters/exportRun.ts";
export { recordingArrow } from "./exporters/recordingArrow.ts";
export type { About } from "./exporters/recordingColumns.ts";
export { recordingCsv } from "./exporters/recordingCsv.ts";
export { recordingParquet } from "./exporters/recordingParquet.ts";
// report: a day as files
export { renderReport, type ReportOptions } from "./report/renderReport.ts";
export { resultsSchema } from "./report/resultsSchema.ts";
export { writeReport } from "./report/writeReport.ts";
