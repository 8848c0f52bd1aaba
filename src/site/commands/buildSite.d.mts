export class BuildProblem extends Error {}
export function buildSite(options?: { draft?: boolean; folder?: string }): Promise<string>;
