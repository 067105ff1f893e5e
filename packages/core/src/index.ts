// The door of the computing library: read a machine file, resolve it against catalogues, assess it, explain a number.

export { type Assessment, assess } from './assess/assess.ts';
export { type Asking, type AskingOptions, askBackwards } from './assess/backwards.ts';
export { type Chapter, chapters } from './assess/chapters.ts';
export { choicesFor } from './assess/choosing.ts';
export { chooseRacks, oneMoreOfEach, type RackChoices, type RackWishes, whyNoChoice } from './assess/choosing-racks.ts';
export { type Comparison, compare } from './assess/compare.ts';
export { type Candidate, inputsOf } from './assess/inputs-of.ts';
export { explain, explainIn, numbersOf } from './assess/numbers.ts';
export { type FindingJson, findingJson, type ReportJson, reportJson, reportVersion } from './assess/report.ts';
export { show, shownAddresses } from './assess/show.ts';
export { viewOfFinding } from './assess/view-of-finding.ts';
export { losersTable, optionsTable } from './axes/choice-tables.ts';
export type { Choice as ChoiceOfParts } from './axes/choose.ts';
export { doneOf, grouped, type NotAsked, readAsked } from './checks/asked.ts';
export { type Finding, lackSentence } from './checks/finding.ts';
export { type Verdict, verdicts } from './checks/margin.ts';
export { placeOf, textAfter, textAt } from './checks/move.ts';
export {
  type Asked,
  allTables,
  type Cell,
  type CellJson,
  type Choosing,
  cellJson,
  type Input,
  type LaterTable,
  type LongJob,
  type LongWork,
  type PartTask,
  type Table,
  tellsLack,
  type View,
} from './checks/view.ts';
export { type Catalogue, readCatalogue } from './machine/catalogue.ts';
export { catalogueOnDemand } from './machine/catalogue-on-demand.ts';
export type { Choice, Edit } from './machine/change.ts';
export { fileVersion } from './machine/format.ts';
export { type Machine, read, withTables } from './machine/machine.ts';
export { cataloguesNamed, cataloguesOf } from './machine/named-catalogues.ts';
export { type PointTables, tablesNamed } from './machine/point-tables.ts';
export { type Design, resolve } from './machine/resolve.ts';
export { machineSchema } from './machine/schema.ts';
export { type SpliceResult, splice, spliceEach, type TextSplice } from './machine/splice.ts';
export { tellOrigin } from './machine/tell-origin.ts';
export { type Variation, vary } from './machine/vary.ts';
export { type PlannedValue, writePlanned } from './machine/write-planned.ts';
export { problemsOfTable, writePoints } from './machine/write-points.ts';
export type { Refusal } from './machine/written.ts';
export { resultOf, type Simulation, simulationOf } from './networks/simulation.ts';
export { type Capture, captureFrom } from './networks/simulation-capture.ts';
export { type NoiseKind, noiseKinds } from './networks/simulation-plan.ts';
export { simulationView } from './networks/simulation-view.ts';
export { type MarginBar, marginBar } from './pictures/margin-bar.ts';
export { marginsPicture } from './pictures/margin-bars.ts';
export { type Drawn, type Picture, plainText, type Words } from './pictures/picture.ts';
export { printSvg } from './pictures/svg.ts';
export type { SvgOptions } from './pictures/svg-sheet.ts';
export { printLines } from './pictures/terminal.ts';
export { previewOf } from './points/preview.ts';
export { entriesRead, pointLines, pointsSheet } from './points/print.ts';
export { type PointsTable, readPointsTable } from './points/table.ts';
export { type Place, type Problem, printProblem, where } from './problems/problem.ts';
export { plural } from './problems/wording.ts';
export type { LinearModel, Solution, Solve } from './racks/calc/linear-model.ts';
export { chosenRacksTable, conflictsOf, type OneMore, oneMoreTable } from './racks/choice-tables.ts';
export {
  choosingSays,
  leftOutSays,
  notFoundSays,
  placedSays,
  provenSays,
  type TaskOfAll,
} from './racks/choice-words.ts';
export type { Preference } from './racks/offers.ts';
export { figuresOf, type PartFigure, textOf } from './reading/figures-of.ts';
export type { Part } from './reading/parts.ts';
export { nearest } from './units/nearest.ts';
export { printQuantity } from './units/print-quantity.ts';
export type { Origin, OriginKind } from './working/origin.ts';
export { addressOf, type Quantity } from './working/quantity.ts';
export { type SetWorking, setWorking } from './working/set-working.ts';
export { type FlatWorking, flatten, print, type Shown, type Working, walk } from './working/working.ts';
