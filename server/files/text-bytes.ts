/** Bytes of a source file → text. Knows encodings, nothing of paths: the callers name the file. */

export type Decoded =
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "refused"; readonly reason: string };

/** Larger files are no sketches; reading them would only cost memory. */
const MOST_BYTES = 16_000_000;

/**
 * UTF-8 (with or without a byte order mark), UTF-16 where a byte order mark says so, and Windows-1252 for the bytes of
 * old sketches that are not valid UTF-8 (a lone 0xB5 for µ). A zero byte means a binary file, which is refused.
 */
export function decodeText(bytes: Uint8Array): Decoded {
  if (bytes.length > MOST_BYTES) return { kind: "refused", reason: `it is larger than ${MOST_BYTES / 1_000_000} MB` };
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return decodedAs("utf-16le", bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return decodedAs("utf-16be", bytes);
  if (bytes.includes(0)) return { kind: "refused", reason: "it is a binary file (it contains zero bytes)" };
  try {
    return { kind: "text", text: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch {
    return decodedAs("windows-1252", bytes);
  }
}

function decodedAs(encoding: string, bytes: Uint8Array): Decoded {
  const text = new TextDecoder(encoding).decode(bytes);
  if (text.includes("\0")) return { kind: "refused", reason: "it is a binary file (it contains zero characters)" };
  return { kind: "text", text };
}
