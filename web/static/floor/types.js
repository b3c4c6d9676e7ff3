// @ts-check
/**
 * What the page's data holds, as the server writes it. Only types: nothing runs here.
 * Times are minutes after midnight of the planned day.
 *
 * @typedef {{at: number, cook: string, key: string}} Said
 * @typedef {{begun: Said|null, done: Said|null, heard: Said|null}} TaskState
 * @typedef {{kind: string, grams: number, tare_grams: number, item: string}} Weight
 * @typedef {{said: Said, tasks: string[], reason: string}} Problem
 * @typedef {{said: Said, tasks: string[], weight: Weight}} Weighing
 * @typedef {{tasks: Record<string, TaskState>, problems: Problem[], weighings: Weighing[]}} Floor
 *
 * @typedef {{key: string, release: number, act: string, at: string, cook: string, tasks: string[],
 *   reason: string, weight: Weight|null, takes_back: string}} Tick
 * @typedef {{to: string, tick: Tick, version: number|null, what: string}} Waiting a tick on the
 *   device; ``version`` of the floor that has it, null: not sent yet; ``what`` says it in words
 *
 * @typedef {{kind: string, item: string, name: string}} OnScale
 * @typedef {{number: number, title: string, end: number, due: number|null, tasks: string[],
 *   byLot: boolean, scale: OnScale[]}} Batch
 * @typedef {{task: string, what: string, place: string, minutes: number, takeOut: string|null}} Alone
 * @typedef {{cook: string, base: string, ticks: string, stream: string, worker: string,
 *   release: number, version: number, midnight: number, date: string, now: number,
 *   clock: 12|24, unit: {name: string, grams: number}, batches: Batch[], containers: string[],
 *   alone: Alone[], floor: Floor, asks: string, reasons: Record<string, string>, words: Record<string, string>}} State asks: what is
 *   reported while no reason is given; reasons: by what is stored of them, in the page's language
 */
export {};
