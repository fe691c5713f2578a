import { CharacterSet, PrinterTypes, ThermalPrinter } from 'node-thermal-printer';
import { PrintError } from './print-error.ts';

/** Taller than any label: a picture that says so is no label. */
const MOST_LINES = 2000;
const IHDR = 12;

/**
 * A PNG as dots of an ESC/POS printer, at the size that it has.
 * @throws PrintError bad-picture: no PNG, or one that does not fit on a line
 */
export async function rasterLabel(png: Uint8Array, dotsPerLine: number): Promise<Uint8Array> {
  const bytes = Buffer.from(png);
  if (bytes.length < 33 || bytes.toString('latin1', IHDR, IHDR + 4) !== 'IHDR') {
    throw new PrintError('bad-picture', 'printer: expected a PNG picture');
  }
  // Looked at before it is unpacked: a small file can say that it is enormous.
  const [width, height] = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
  if (width < 1 || height < 1 || width > dotsPerLine || height > MOST_LINES) {
    throw new PrintError(
      'bad-picture',
      `printer: expected a picture of at most ${String(dotsPerLine)} by ${String(MOST_LINES)} dots, found ${String(width)} by ${String(height)}`,
    );
  }
  const printer = new ThermalPrinter({
    type: PrinterTypes.EPSON,
    interface: '',
    characterSet: CharacterSet.WPC1252,
  });
  printer.clear();
  printer.append(Buffer.from([0x1b, 0x40]));
  try {
    await printer.printImageBuffer(bytes);
  } catch (error) {
    throw new PrintError(
      'bad-picture',
      `printer: this PNG cannot be read (${error instanceof Error ? error.message : ''})`,
    );
  }
  printer.cut({ verticalTabAmount: 1 });
  return new Uint8Array(printer.getBuffer());
}
