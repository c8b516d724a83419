// The program names its options and commands; the page has fields and stations for them. This is the
// one place that says which: every sentence of the program goes through `forPage` before it is shown
// (program.ts), and tests/page/words.test.mjs holds the catalogue of all sentences against it.

/** The labels of the fields (and of what is opened or pressed instead). */
export const FIELDS: Record<string, string> = {
  "--back": "Back",
  "--back-bleed": "Bleed that the backs have",
  "--back-edge": "Edge of the back",
  "--backs": "Pages that are backs",
  "--blocks": "Blocks on a sheet",
  "--border": "Border of the back",
  "--by": "What you read",
  "--card": "Card",
  "--cards": "Cards wanted",
  "--confidence": "How sure",
  "--corner-radius": "Corner radius in the preview",
  "--corrected": "Printed with this correction",
  "--count": "What is counted",
  "--coverage": "Cards free of slivers",
  "--cut-sd": "How unevenly you cut",
  "--datum": "Read by",
  "--exclude": "Sheets that count",
  "--feed": "Tray and guides",
  "--fit": "How the pictures fill the card",
  "--fitted-to": "Fit each back to its own front",
  "--front-bleed": "Bleed that the fronts have",
  "--fronts": "Fronts",
  "--geometry": "For programs: where every mark is",
  "--grid": "Cards on a sheet",
  "--grow": "How the back grows",
  "--guides": "An image editor",
  "--gutter": "Gutter between cards",
  "--job": "Name of the job",
  "--keep": "Count in misfed sheets",
  "--keep-doubtful": "Count in doubtful sheets",
  "--label": "Your own words",
  "--laminated-mm": "Laminated size",
  "--margin": "White margin of the printer",
  "--no-marks": "Marks in the waste, for the next time",
  "--no-rotation": "Move the backs, do not turn them",
  "--no-scale": "Move and turn the backs, do not scale them",
  "--not-corrected": "Printed without it",
  "--oversize": "Oversize of the backs",
  "--paper": "Paper",
  "--paper-thickness": "Thickness of the paper",
  "--passes": "Times that each sheet is fed",
  "--pouch-thickness": "Thickness of a pouch film",
  "--ppi": "Pixels per inch",
  "--printer": "Name of the printer",
  "--quality": "Quality setting",
  "--recentre": "Fresh sheets of the day",
  "--sd": "Spread from sheet to sheet",
  "--separator": "Between cells",
  "--sheets": "Sheets",
  "--step": "Your editor moves in steps of",
  "--stock": "Paper stock",
  "--template": "No scanner? Read by eye",
  "--ticks": "Ticks beside the guides",
  "--today": "Your backs are larger today by",
  "--turn": "How you turn the sheet over",
  "--units": "Say distances first in",
};

/** The titles of the stations that do what a command does. */
export const STATIONS: Record<string, string> = {
  advise: "What to do",
  check: "Next time",
  compare: "Printer",
  correct: "Deck",
  impose: "Deck",
  measure: "Scans",
  plan: "Test sheets",
  profile: "Printer",
  profiles: "Printer",
  readings: "Scans",
  report: "What to do",
  target: "Test sheets",
};

const field = (option: string) => (FIELDS[option] ? `“${FIELDS[option]}”` : option);
const at = (command: string) => (STATIONS[command] ? `the station “${STATIONS[command]}”` : `versolay ${command}`);

/** Where a name alone would not do, in order; the last ones are for all sentences. */
export const WORDS: [RegExp, string | ((...found: string[]) => string)][] = [
  // Lines about the command line itself.
  [/^.*\b(?:add|with) --verbose\.$/gm, ""],
  [/^versolay(?: \S+)? --help .*$/gm, ""],
  [/^Written to .*?\.[a-z]{3,4}\. ?/gm, ""],
  // Sheets that count.
  [/leave it out with --exclude \S+ --why REASON/g, "untick it at the station “Printer” and say why"],
  [/Say which one: --exclude FILE:\S+/g, "Untick it there under the file that it is in"],
  [/keep it with (--keep(?:-doubtful)?)/gi, (all, option) => `${all[0] === "K" ? "Tick" : "tick"} ${field(option!)}`],
  [/needs one --why for each sheet/g, "needs a reason for each sheet that does not count"],
  // Fresh sheets of the day.
  [/versolay advise PROFILE --recentre READINGS/g, "the station “What to do”, “Fresh sheets of the day”"],
  [/readings with --recentre/g, "readings at the station “What to do”, “Fresh sheets of the day”"],
  // Fitted backs.
  [/\(measure --fronts, impose --fitted-to\)/g, "(the station “Deck”, “Fit each back to its own front”)"],
  [/Give --fronts scans of fronts only/g, "Give scans of fronts only"],
  [/Leave out --fitted-to/g, "Press “Do not fit”"],
  [/needs --profile\b/g, "needs a profile, which the station “Printer” makes"],
  // Choices that are ticks or entries of a list.
  [/--no-marks turns off the marks and this remark/g, "untick “Marks in the waste, for the next time” to turn off the marks and this remark"],
  [/--fit fit shows all of them/g, "“How the pictures fill the card” can show all of them"],
  [/Add --border 3 to the command to see/g, "Fill in 3 at “Border of the back” to see"],
  [/Add --card and --grid to see/g, "The station “What to do” says"],
  [/\b([Aa])dd (--[a-z-]+)/g, (_, a, option) => `${a === "A" ? "Fill" : "fill"} in ${field(option!)}`],
  [/true resolution \(--ppi\)/g, "true resolution (“Pixels per inch of the pictures”)"],
  [/^The worst card, life-size: .*?\. (?=Back)/gm, ""], // the folder of pictures that stand in the page
  // Both are done at one station.
  [/with versolay impose/g, "under “Pictures of cards”"],
  [/versolay impose/g, "“Pictures of cards”"],
  // All that is left: names of commands, of options, of both.
  [/\((target|plan) (--[a-z-]+)\)/g, (_, __, option) => `(${field(option!)})`],
  [/(?:with )?\bversolay ([a-z]+) (--[a-z-]+)/g, (all, command, option) => `${/^with/.test(all) ? "at " : ""}${at(command!)} (${field(option!)})`],
  [/with versolay ([a-z]+)/g, (_, command) => `at ${at(command!)}`],
  [/\bversolay ([a-z]+)/g, (_, command) => at(command!)],
  [/--[a-z][a-z-]*/g, (option) => field(option)],
  [/\btarget sheet/g, "test sheet"],
  [/\+-(?=\S)/g, "±"],
];

// Folders that the page puts files into when it hands them to the program.
const FOLDERS = /(?<=^|[\s"(])(?:scans|pages|fronts|backs|profiles?|readings|new|fresh)\/(?=\S)/gm;

/** A sentence of the program, as the page says it. */
export function forPage(sentence: string): string {
  const said = WORDS.reduce((words, [from, to]) => words.replace(from, to as (...found: string[]) => string), sentence.replace(FOLDERS, ""));
  return said.replace(/(?<=^|[.?!] )the station/gm, "The station");
}
