const lineFeed = 10;
const carriageReturn = 13;

/**
 * Whether a file ends with a whole line. A text file ends whole when its last line has its line end; a logger that is still
 * writing, and a copy that broke off, mostly leave it open. Files that are no text have no lines and always end whole.
 *
 * @param head   the first bytes of the file, some hundred
 * @param tail   its last bytes, at least two where it has as many
 */
export function endsWhole(head: Uint8Array, tail: Uint8Array): boolean {
  if (!isText(head)) return true;
  const last = tail.at(-1);
  if (last === lineFeed || last === carriageReturn) return true;
  // UTF-16 with the low byte first: the line end's high byte comes last.
  const before = tail.at(-2);
  return last === 0 && (before === lineFeed || before === carriageReturn);
}

/** Text holds no zero bytes, unless it is UTF-16: then about every second one is. */
function isText(head: Uint8Array): boolean {
  const zeros = head.filter((byte) => byte === 0).length;
  if (zeros === 0) return true;
  const marked = (head[0] === 0xff && head[1] === 0xfe) || (head[0] === 0xfe && head[1] === 0xff);
  const oneSided = [0, 1].some((side) => head.every((byte, place) => byte !== 0 || place % 2 === side));
  return marked || (oneSided && zeros > head.length * 0.3);
}
