export interface Served {
  /** Ends in a slash. */
  address: string;
  close(): Promise<void>;
}
export function serve(options: { folder: string; port?: number; prefix?: string }): Promise<Served>;
