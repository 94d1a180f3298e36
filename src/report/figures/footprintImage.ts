import { encode } from "fast-png";
import type { FootprintPicture } from "../../processing/footprintPicture.ts";

type Color = readonly [number, number, number];

/** From no pressure to the greatest: pale to dark, even in lightness, so that it reads in grey too. */
const stops: readonly Color[] = [[246, 244, 236], [190, 215, 205], [98, 166, 178], [33, 102, 142], [22, 44, 84]];
/** What a photograph's contact is tinted with. */
const tint: Color = [214, 102, 20];
const dead: Color = [200, 60, 60];

export function pressureColor(share: number): Color {
  const place = Math.max(0, Math.min(1, share)) * (stops.length - 1);
  const low = Math.min(stops.length - 2, Math.floor(place));
  const [a, b] = [stops[low] as Color, stops[low + 1] as Color];
  const mix = (i: 0 | 1 | 2): number => Math.round(a[i] + (b[i] - a[i]) * (place - low));
  return [mix(0), mix(1), mix(2)];
}

/** The picture as a data address of a PNG: pressures in colour, brightness in grey with the contact tinted; dead cells red. */
export function footprintImage(picture: FootprintPicture, greatest: number): string {
  const data = new Uint8Array(picture.rows * picture.columns * 3);
  picture.values.forEach((value, i) => {
    const grey: Color = [value ?? 0, value ?? 0, value ?? 0];
    const shown = picture.contact[i] === true ? grey.map((part, k) => Math.round(0.55 * part + 0.45 * (tint[k] as number))) : grey;
    data.set(value === null ? dead : picture.unit === "Pa" ? pressureColor(value / greatest) : shown, 3 * i);
  });
  const png = encode({ width: picture.columns, height: picture.rows, data, channels: 3, depth: 8 });
  return `data:image/png;base64,${Buffer.from(png).toString("base64")}`;
}
