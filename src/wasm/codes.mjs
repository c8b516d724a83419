// The reader of matrix codes, made ready so that the program can call it and go on with the answer.
import { prepareZXingModule } from "./zxing/reader/index.js";

// As the native reader is asked (src/measure/code_reader.cpp); numbers are places in the lists of
// its package: binarizer LocalAverage, add-ons Ignore, text Plain, characters Unknown.
const OPTIONS = {
  tryHarder: true,
  tryInvert: false,
  tryDownscale: true,
  tryDenoise: false,
  binarizer: 0,
  isPure: false,
  downscaleFactor: 3,
  downscaleThreshold: 500,
  minLineCount: 2,
  maxNumberOfSymbols: 1,
  validateOptionalChecksum: false,
  returnErrors: false,
  eanAddOnSymbol: 0,
  textMode: 0,
  characterSet: 0,
  tryCode39ExtendedMode: false,
};

/**
 * Starts the reader from its WebAssembly.
 * Resolves to (grey pixels, width, height, "QRCode" or "DataMatrix") -> text or null.
 */
export async function prepareCodes(wasmBinary) {
  const reader = await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true });
  return (grey, width, height, format) => {
    const pixels = reader._malloc(grey.length);
    try {
      reader.HEAPU8.set(grey, pixels);
      const options = { ...OPTIONS, formats: format, tryRotate: format === "DataMatrix" };
      const found = reader.readBarcodesFromPixmap(pixels, width, height, options);
      try {
        if (found.size() === 0 || !found.get(0).isValid) return null;
        return found.get(0).text.replace(/[^\x01-\x7f]/g, "?"); // no code of ours has others
      } finally {
        found.delete();
      }
    } finally {
      reader._free(pixels);
    }
  };
}
