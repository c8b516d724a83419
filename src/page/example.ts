// The readings of the example: a bird-watching club's printer, simulated by
//   versolay rehearse --sheets 10 --proof-sheets 4 --seed 7 --dpi 300
// (readings.json, and proof-readings.json as later sheets, printed with the correction).
import first from "./example/readings.json";
import later from "./example/later-sheets.json";

export const exampleReadings: string = first;
export const laterReadings: string = later;
export const examplePrinter = { name: "club inkjet (example)", feed: "rear tray" };
