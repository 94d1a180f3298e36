import { SaxesParser } from "saxes";

/** Told of each element in turn; names come without their prefix. */
export interface XmlVisitor {
  open?(name: string, attributes: Readonly<Record<string, string>>): void;
  text?(text: string): void;
  close?(name: string): void;
}

const piece = 1 << 16;
/** Workbooks nest a dozen elements and give each a few attributes; every open one is kept in memory. */
const deepest = 100;
const mostAttributes = 500;

/** @throws Error where the text is no XML */
export function readXml(bytes: Uint8Array, visitor: XmlVisitor): void {
  const parser = new SaxesParser({ xmlns: false, position: false });
  parser.on("error", (error) => {
    throw error;
  });
  let depth = 0;
  let attributes = 0;
  parser.on("attribute", () => {
    if (++attributes > mostAttributes) throw new Error(`an element of more than ${mostAttributes} attributes`);
  });
  parser.on("opentag", (tag) => {
    attributes = 0;
    if (++depth > deepest) throw new Error(`elements within elements, more than ${deepest} deep`);
    visitor.open?.(local(tag.name), tag.attributes as Record<string, string>);
  });
  if (visitor.text !== undefined) {
    parser.on("text", (text) => visitor.text?.(text));
    parser.on("cdata", (text) => visitor.text?.(text));
  }
  parser.on("closetag", (tag) => {
    depth--;
    visitor.close?.(local(tag.name));
  });
  const decoder = new TextDecoder("utf-8", { fatal: true });
  for (let from = 0; from < bytes.length; from += piece) parser.write(decoder.decode(bytes.subarray(from, from + piece), { stream: true }));
  parser.write(decoder.decode());
  parser.close();
}

function local(name: string): string {
  const colon = name.indexOf(":");
  return colon < 0 ? name : name.slice(colon + 1);
}
