/** "Mark C" within a sentence: "mark C". */
export const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** "hang 1" at the start of a sentence: "Hang 1". */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
