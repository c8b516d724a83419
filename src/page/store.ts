// What the browser keeps between visits. Each record has a version; whoever writes says which version
// it has seen, so that two tabs cannot overwrite each other's work unseen.

export interface Kept<T = unknown> {
  key: string;
  version: number;
  value: T;
}

export type Written = { ok: true; version: number } | { ok: false; current: Kept | null };

export interface Store {
  /** False: nothing outlives this tab (private window, storage forbidden or full). */
  readonly lasting: boolean;
  all(): Promise<Kept[]>;
  /** Writes if the kept version is still `seen` (0: there is none yet). */
  put(key: string, value: unknown, seen: number): Promise<Written>;
  /** Removes if the kept version is still `seen`; tells whether it did. */
  drop(key: string, seen: number): Promise<boolean>;
  /** Called with the key when another tab has changed a record. */
  onChange(listener: (key: string) => void): void;
}

const DATABASE = "versolay";
const RECORDS = "records";

function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function finished(transaction: IDBTransaction): Promise<void> {
  const done = new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new Error("aborted"));
    transaction.onerror = () => reject(transaction.error ?? new Error("failed"));
  });
  done.catch(() => undefined); // whoever waits for it hears of it; a request that failed before is reported separately
  return done;
}

class Memory implements Store {
  readonly lasting = false;
  private records = new Map<string, Kept>();
  all(): Promise<Kept[]> {
    return Promise.resolve([...this.records.values()]);
  }
  put(key: string, value: unknown, seen: number): Promise<Written> {
    const current = this.records.get(key) ?? null;
    if ((current?.version ?? 0) !== seen) return Promise.resolve({ ok: false, current });
    this.records.set(key, { key, version: seen + 1, value });
    return Promise.resolve({ ok: true, version: seen + 1 });
  }
  drop(key: string): Promise<boolean> {
    return Promise.resolve(this.records.delete(key));
  }
  onChange(): void {}
}

class Database implements Store {
  readonly lasting = true;
  private channel: BroadcastChannel | null = null;
  constructor(private db: IDBDatabase) {
    // A newer page in another tab wants the database: it would wait for ever. This one then says that it keeps nothing.
    db.onversionchange = () => db.close();
    try {
      this.channel = new BroadcastChannel(DATABASE);
    } catch {
      this.channel = null; // versions still guard the records
    }
  }

  async all(): Promise<Kept[]> {
    const records = this.db.transaction(RECORDS).objectStore(RECORDS);
    return (await asked(records.getAll())) as Kept[];
  }

  // One transaction reads the version and writes: transactions of all tabs wait for each other.
  async put(key: string, value: unknown, seen: number): Promise<Written> {
    const transaction = this.db.transaction(RECORDS, "readwrite");
    const done = finished(transaction);
    const records = transaction.objectStore(RECORDS);
    const current = ((await asked(records.get(key))) as Kept | undefined) ?? null;
    const free = (current?.version ?? 0) === seen;
    if (free) records.put({ key, version: seen + 1, value });
    await done;
    if (!free) return { ok: false, current };
    this.channel?.postMessage(key);
    return { ok: true, version: seen + 1 };
  }

  async drop(key: string, seen: number): Promise<boolean> {
    const transaction = this.db.transaction(RECORDS, "readwrite");
    const done = finished(transaction);
    const records = transaction.objectStore(RECORDS);
    const current = (await asked(records.get(key))) as Kept | undefined;
    const free = current !== undefined && current.version === seen;
    if (free) records.delete(key);
    await done;
    if (free) this.channel?.postMessage(key);
    return free;
  }

  onChange(listener: (key: string) => void): void {
    this.channel?.addEventListener("message", (event) => listener(String(event.data)));
  }
}

const PATIENCE_MS = 5000; // some browsers never answer

function opened(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1);
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      reject(new Error("the database does not open"));
    }, PATIENCE_MS);
    request.onupgradeneeded = () => request.result.createObjectStore(RECORDS, { keyPath: "key" });
    request.onsuccess = () => (late ? request.result.close() : (clearTimeout(timer), resolve(request.result)));
    request.onerror = () => (clearTimeout(timer), reject(request.error));
  });
}

/** The browser's database, or memory where the browser forbids it or does not answer. */
export async function openStore(): Promise<Store> {
  try {
    const store = new Database(await opened());
    await store.all();
    return store;
  } catch {
    return new Memory();
  }
}
