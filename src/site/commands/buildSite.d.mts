export class BuildProblem extends Error {}
export function buildSite(options?: { draft?: boolean }): Promise<string>;
