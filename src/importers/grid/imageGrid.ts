import { decode as decodePng } from "fast-png";
import { decode as decodeJpeg } from "jpeg-js";
import { InputError } from "../../core/errors.ts";
import type { Grid } from "./textGrid.ts";

/** More pixels than this are no photograph of a footprint, and fill the memory. */
const mostPixels = 40e6;
/** Weights of red, green and blue in brightness. @source ITU-R BT.709 */
const weights = [0.2126, 0.7152, 0.0722] as const;

/**
 * A photograph as brightness from 0 to 255: 0.2126 R + 0.7152 G + 0.0722 B of the stored values, whatever curve they follow.
 *
 * @throws InputError for what is no PNG or JPEG, too large, broken, or see-through
 */
export function imageGrid(bytes: Uint8Array, fileName: string): Grid {
  const refuse = (code: string, found: string, hint: string): InputError => new InputError([{ code, at: fileName, message: `expected a photograph as PNG or JPEG, found ${found}`, hint }]);
  const png = bytes[0] === 0x89 && bytes[1] === 0x50 && bytes[2] === 0x4e && bytes[3] === 0x47;
  const jpeg = bytes[0] === 0xff && bytes[1] === 0xd8;
  if (!png && !jpeg) throw refuse("not-an-image", "neither by its first bytes", "Export the photograph as PNG");
  const size = png ? pngSize(bytes) : null;
  if (size !== null && size > mostPixels) throw refuse("image-too-large", `${(size / 1e6).toFixed(0)} million pixels`, `Cut out the footprint, or reduce it below ${mostPixels / 1e6} million`);
  try {
    return png ? fromPng(bytes) : fromJpeg(bytes);
  } catch (error) {
    throw error instanceof InputError ? error : refuse("broken-image", `a file that cannot be decoded (${error instanceof Error ? error.message : String(error)})`, "Copy the file again, or export it anew");
  }

  function fromPng(data: Uint8Array): Grid {
    const image = decodePng(data);
    const { width, height, channels, depth } = image;
    const palette = image.palette;
    const most = 2 ** depth - 1;
    const pixel = depth < 8 ? unpacked(image.data as Uint8Array, width * channels, height, depth) : image.data;
    const values = new Float64Array(width * height);
    for (let i = 0; i < values.length; i++) {
      if (palette !== undefined) {
        const color = palette[pixel[i] as number];
        if (color === undefined || (color.length > 3 && color[3] !== 255)) throw refuse("see-through", "see-through or missing palette colours", "Export it on a plain ground, without transparency");
        values[i] = brightness(color[0] as number, color[1] as number, color[2] as number);
        continue;
      }
      const at = i * channels;
      const alpha = channels === 2 || channels === 4 ? (pixel[at + channels - 1] as number) : most;
      if (alpha !== most) throw refuse("see-through", "see-through pixels", "Export it on a plain ground, without transparency");
      const [r, g, b] = channels < 3 ? [pixel[at], pixel[at], pixel[at]] : [pixel[at], pixel[at + 1], pixel[at + 2]];
      values[i] = (255 / most) * brightness(r as number, g as number, b as number);
    }
    return { rows: height, columns: width, values, format: `PNG, ${width} × ${height} pixels, ${depth} bit` };
  }

  function fromJpeg(data: Uint8Array): Grid {
    const { width, height, data: rgba } = decodeJpeg(data, { useTArray: true, maxResolutionInMP: mostPixels / 1e6 });
    const values = Float64Array.from({ length: width * height }, (_, i) => brightness(rgba[4 * i] as number, rgba[4 * i + 1] as number, rgba[4 * i + 2] as number));
    return { rows: height, columns: width, values, format: `JPEG, ${width} × ${height} pixels` };
  }
}

const brightness = (r: number, g: number, b: number): number => weights[0] * r + weights[1] * g + weights[2] * b;

/** Width times height from the header. */
function pngSize(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  return bytes.length < 24 ? 0 : view.getUint32(16) * view.getUint32(20);
}

/** Values of fewer than eight bits stand packed, each row beginning a byte. */
function unpacked(data: Uint8Array, perRow: number, rows: number, depth: number): Uint8Array {
  const out = new Uint8Array(perRow * rows);
  const rowBytes = Math.ceil((perRow * depth) / 8);
  for (let row = 0; row < rows; row++) {
    for (let i = 0; i < perRow; i++) {
      const bit = i * depth;
      out[row * perRow + i] = ((data[row * rowBytes + (bit >> 3)] as number) >> (8 - depth - (bit & 7))) & (2 ** depth - 1);
    }
  }
  return out;
}
