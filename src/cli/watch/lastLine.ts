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
  // A carriage return ends a line alone only where no line feed follows it elsewhere: the file may be cut between the two.
  const ends = (byte: number | undefined): boolean => byte === lineFeed || (byte === carriageReturn && !head.includes(lineFeed));
  // UTF-16 with the low byte first: the line end's high byte comes last.
  return ends(tail.at(-1)) || (tail.at(-1) === 0 && ends(tail.at(-2)));
}

/** Text holds no zero bytes, unless it is UTF-16: then about every second one is. */
function isText(head: Uint8Array): boolean {
  const zeros = head.filter((byte) => byte === 0).length;
  if (zeros === 0) return true;
  const marked = (head[0] === 0xff && head[1] === 0xfe) || (head[0] === 0xfe && head[1] === 0xff);
  const oneSided = [0, 1].some((side) => head.every((byte, place) => byte !== 0 || place % 2 === side));
  return marked || (oneSided && zeros > head.length * 0.3);
}
