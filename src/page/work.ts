// What is known so far: readings, profiles and what was chosen in the forms. Kept after every change.
import { examplePrinter } from "./example";
import type { Kept, Store } from "./store";

export interface Readings {
  name: string; // as a file
  text: string; // the file: versolay.readings/2
  origin: "scans" | "table" | "file" | "example";
  counts: boolean; // goes into the profile that is made next
}

export interface Profile {
  name: string;
  text: string; // the file: versolay.profile/2
  learned: string[]; // what the program said when it was made or opened
  note: string; // the note to pin up, by the program
  backs?: string; // what is done about them, by the program; earlier pages did not keep it
}

/** Of the last advice, for the line that says what is known. */
export interface Advised {
  profile: string;
  total_px: { width: number; height: number };
  ppi: number;
}

export type Choices = Record<string, string>;
type Change = "readings" | "profiles" | "choices" | "storage";

interface ReadingsFile {
  sheets: { sheet: number; kind?: string }[];
  created?: string;
}
interface ProfileFile {
  printer: string;
  feed: string;
  stock: string;
  quality: string;
  n_sheets: number;
  n_feeds: number;
  turn: string;
  paper_mm: [number, number];
}

const isText = (value: unknown): value is string => typeof value === "string";
const isTexts = (value: unknown): boolean => Array.isArray(value) && value.every(isText);

// Files are read once, not at every change of a choice.
const readOnce = new WeakMap<object, unknown>();
function once<T>(of: object, read: () => T): T {
  if (!readOnce.has(of)) readOnce.set(of, read());
  return readOnce.get(of) as T;
}

function parsed(text: unknown): Record<string, unknown> | null {
  try {
    return JSON.parse(String(text)) as Record<string, unknown> | null;
  } catch {
    return null;
  }
}

/** Whether the stations can show a record: another version of the page may have written it, or a disk spoilt it. */
function readable({ key, value }: Kept): boolean {
  if (typeof value !== "object" || value === null) return false;
  const one = value as Record<string, unknown>;
  if (key === "choices") return Object.values(one).every(isText);
  if (key === "advised") return isText(one.profile) && typeof one.total_px === "object" && one.total_px !== null;
  const file = isText(one.name) && isText(one.text) ? parsed(one.text) : null;
  if (!file) return false;
  if (key.startsWith("readings:")) return Array.isArray(file.sheets) && file.sheets.every((sheet) => typeof sheet === "object" && sheet !== null);
  if (key.startsWith("profile:"))
    return isTexts(one.learned) && isTexts([one.note, one.backs ?? ""]) && isTexts([file.printer, file.feed, file.stock, file.quality]) && typeof file.n_sheets === "number";
  return false;
}

export class Work {
  private records = new Map<string, Kept>();
  private odd = new Map<string, Kept>();
  private changes = 0; // own ones, since the page was opened
  private listeners: ((change: Change) => void)[] = [];
  private writes: Promise<void> = Promise.resolve();
  /** Said once to the person: storage fails, another tab was faster. */
  notice = "";
  lasting: boolean;

  private constructor(private store: Store) {
    this.lasting = store.lasting;
  }

  static async open(store: Store): Promise<Work> {
    const work = new Work(store);
    work.admit(await store.all());
    store.onChange(() => void work.takeOver().catch(() => work.storageFails()));
    return work;
  }

  onChange(listener: (change: Change) => void): void {
    this.listeners.push(listener);
  }
  private tell(change: Change): void {
    for (const listener of this.listeners) listener(change);
  }

  // What stations cannot show stays where it is kept, and is told of.
  private admit(kept: Kept[]): void {
    this.records = new Map();
    this.odd = new Map();
    for (const one of kept) (readable(one) ? this.records : this.odd).set(one.key, one);
  }

  /** Readings and profiles that are kept but damaged, or of another version of the page: [key, record]. */
  unreadable(): [string, Kept][] {
    return [...this.odd].filter(([key]) => /^(readings|profile):/.test(key));
  }

  // Files of the other tab are taken over, what is chosen in this one stays.
  private async takeOver(): Promise<void> {
    if (!this.lasting) return; // what could not be written is here only
    let kept: Kept[];
    for (let seen = -1; seen !== this.changes; ) {
      seen = this.changes; // what is written meanwhile would be missing: once more
      await this.writes;
      kept = await this.store.all();
    }
    const chosen = this.choices;
    const advised = this.advised();
    this.admit(kept!);
    for (const [key, value] of [["choices", { ...(this.choices as object), ...chosen }], ["advised", advised]] as const)
      if (value) this.records.set(key, { key, version: this.records.get(key)?.version ?? 0, value });
    this.tell("readings");
    this.tell("profiles");
  }

  private list<T>(prefix: string): [string, T][] {
    return [...this.records.values()]
      .filter((kept) => kept.key.startsWith(prefix))
      .map((kept): [string, T] => [kept.key, kept.value as T])
      .sort(([a], [b]) => a.localeCompare(b));
  }

  readings(): [string, Readings][] {
    return this.list<Readings>("readings:");
  }
  counting(): [string, Readings][] {
    return this.readings().filter(([, one]) => one.counts);
  }
  profiles(): [string, Profile][] {
    return this.list<Profile>("profile:");
  }
  profile(): [string, Profile] | null {
    const all = this.profiles();
    return all.find(([key]) => key === this.choice("profile")) ?? all[all.length - 1] ?? null;
  }
  readingsFile(one: Readings): ReadingsFile {
    return once(one, () => {
      const { sheets, created } = JSON.parse(one.text) as ReadingsFile;
      return { sheets: sheets.map(({ sheet, kind }) => ({ sheet, kind })), created };
    });
  }
  profileFile(one: Profile): ProfileFile {
    return once(one, () => {
      const { printer, feed, stock, quality, n_sheets, n_feeds, turn, paper_mm } = JSON.parse(one.text) as ProfileFile;
      return { printer, feed, stock, quality, n_sheets, n_feeds, turn, paper_mm };
    });
  }
  advised(): Advised | null {
    return (this.records.get("advised")?.value as Advised | undefined) ?? null;
  }

  private get choices(): Choices {
    return (this.records.get("choices")?.value as Choices | undefined) ?? {};
  }
  choice(name: string, otherwise = ""): string {
    return this.choices[name] ?? otherwise;
  }
  choose(name: string, value: string): void {
    if (this.choices[name] === value) return;
    const kept = this.records.get("choices");
    const value2 = { ...this.choices, [name]: value };
    this.records.set("choices", { key: "choices", version: kept?.version ?? 0, value: value2 });
    void this.write("choices");
    this.tell("choices");
  }

  /** Own readings end the example: it counts no longer. */
  async addReadings(one: Readings, replace?: string): Promise<string> {
    const key = replace ?? this.freshKey("readings:");
    if (one.origin !== "example") this.endExample();
    this.set(key, { ...one, name: this.freeName(one.name, key, "readings:") });
    this.tell("readings");
    await this.writes;
    return key;
  }
  private endExample(): void {
    for (const [key, kept] of this.readings())
      if (kept.origin === "example" && kept.counts) this.set(key, { ...kept, counts: false });
    if (this.choice("printer.name") !== examplePrinter.name) return;
    this.choose("printer.name", "");
    this.choose("printer.feed", "");
  }
  setCounts(key: string, counts: boolean): void {
    const one = this.records.get(key)?.value as Readings | undefined;
    if (!one) return;
    this.set(key, { ...one, counts });
    this.tell("readings");
  }
  async addProfile(one: Profile, replace?: string): Promise<string> {
    const key = replace ?? this.freshKey("profile:");
    this.set(key, { ...one, name: this.freeName(one.name, key, "profile:") });
    this.choose("profile", key);
    this.tell("profiles");
    await this.writes;
    return key;
  }
  setAdvised(advised: Advised): void {
    this.set("advised", advised);
    this.tell("choices");
  }

  async forget(key: string): Promise<void> {
    await this.writes;
    const kept = this.records.get(key) ?? this.odd.get(key);
    if (!kept) return;
    this.records.delete(key);
    this.odd.delete(key);
    await this.queue(() => this.store.drop(key, kept.version));
    this.tell(key.startsWith("profile:") ? "profiles" : "readings");
  }
  async forgetAll(): Promise<void> {
    for (const key of [...this.records.keys(), ...this.odd.keys()]) await this.forget(key);
    this.tell("choices");
  }

  // Sorts by time, and differs between tabs.
  private freshKey(prefix: string): string {
    const random = crypto.getRandomValues(new Uint32Array(1))[0]!.toString(36);
    return `${prefix}${Date.now().toString(36).padStart(9, "0")}-${random}`;
  }

  // Commands tell files apart by their names.
  private freeName(name: string, key: string, prefix: string): string {
    const taken = new Set(
      this.list<{ name: string }>(prefix)
        .filter(([other]) => other !== key)
        .map(([, one]) => one.name),
    );
    const stem = name.replace(/\.json$/i, "");
    let free = `${stem}.json`;
    for (let number = 2; taken.has(free); number += 1) free = `${stem}-${number}.json`;
    return free;
  }

  private set(key: string, value: unknown): void {
    this.records.set(key, { key, version: this.records.get(key)?.version ?? 0, value });
    void this.write(key);
  }

  private write(key: string): Promise<void> {
    return this.queue(() => this.writeNow(key));
  }
  private queue(change: () => Promise<unknown>): Promise<void> {
    this.changes += 1;
    this.writes = this.writes.then(change).then(
      () => undefined,
      () => this.storageFails(),
    );
    return this.writes;
  }

  private async writeNow(key: string): Promise<void> {
    const mine = this.records.get(key);
    if (!mine) return;
    const written = await this.store.put(key, mine.value, mine.version);
    if (written.ok) {
      const now = this.records.get(key);
      if (now) this.records.set(key, { ...now, version: written.version });
      return;
    }
    const theirs = written.current;
    if (key === "choices" || key === "advised" || !theirs) {
      // Nothing precious: what this tab says last counts.
      const value = key === "choices" ? { ...(theirs && readable(theirs) ? (theirs.value as Choices) : {}), ...(mine.value as Choices) } : mine.value;
      this.records.set(key, { key, version: theirs?.version ?? 0, value });
      return this.writeNow(key);
    }
    // Another tab changed this one meanwhile: keep both.
    if (readable(theirs)) this.records.set(key, theirs);
    else this.records.delete(key), this.odd.set(key, theirs);
    const prefix = key.slice(0, key.indexOf(":") + 1);
    const beside = this.freshKey(prefix);
    const value = mine.value as { name: string };
    this.records.set(beside, {
      key: beside,
      version: 0,
      value: { ...value, name: this.freeName(value.name, beside, prefix) },
    });
    if (this.choice("profile") === key) this.choose("profile", beside);
    this.notice = "Another tab of this page changed the same file. Both are kept, side by side.";
    this.tell("storage");
    return this.writeNow(beside);
  }

  private storageFails(): void {
    this.lasting = false;
    this.tell("storage");
  }
}
