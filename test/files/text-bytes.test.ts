import { describe, expect, it } from "vitest";
import { decodeText } from "../../server/files/text-bytes.js";

const bytes = (text: string, encoding: BufferEncoding): Uint8Array => new Uint8Array(Buffer.from(text, encoding));

describe("bytes of a source file", () => {
  it("are UTF-8 by default", () => {
    expect(decodeText(bytes("// 20 µs ± 1", "utf8"))).toEqual({ kind: "text", text: "// 20 µs ± 1" });
  });
  it("lose a byte order mark, so that offsets count as in an editor", () => {
    expect(decodeText(bytes("\uFEFFint x;", "utf8"))).toEqual({ kind: "text", text: "int x;" });
  });
  it("are UTF-16 where the mark says so, in either order", () => {
    const little = bytes("\uFEFFint x;", "utf16le");
    const big = Uint8Array.from(little);
    for (let at = 0; at + 1 < big.length; at += 2) [big[at], big[at + 1]] = [big[at + 1]!, big[at]!];
    expect(decodeText(little)).toEqual({ kind: "text", text: "int x;" });
    expect(decodeText(big)).toEqual({ kind: "text", text: "int x;" });
  });
  it("of an old sketch that are no UTF-8 are read as Windows-1252", () => {
    expect(decodeText(Uint8Array.from([0x2f, 0x2f, 0x20, 0xb5, 0x73]))).toEqual({ kind: "text", text: "// µs" });
  });
  it("with a zero among them are a binary file", () => {
    expect(decodeText(Uint8Array.from([0x7f, 0x45, 0x4c, 0x46, 0, 1]))).toMatchObject({ kind: "refused" });
    expect(decodeText(bytes("\uFEFFa\0b", "utf16le"))).toMatchObject({ kind: "refused" });
  });
  it("keep carriage returns", () => {
    expect(decodeText(bytes("a\r\nb", "utf8"))).toEqual({ kind: "text", text: "a\r\nb" });
  });
  it("beyond any sketch's size are refused", () => {
    expect(decodeText(new Uint8Array(16_000_001).fill(0x20))).toMatchObject({ kind: "refused" });
  });
});
