// What the page, the editor and the engine say to each other: the one declaration of it. types_test.go holds it against
// the Go side: every member of the view state, every function of the bridge, every verb of the worker.
//
// One member stands on one line. Numbers are mm and degrees, unless a name says otherwise.

type Point = [number, number];
type Units = 'mm' | 'in';

// The view state: desk.State as JSON.
interface View {
  revision: number;
  title: string;
  units: Units;
  undo: string;
  redo: string;
  lines: Record<string, string>;
  silhouettes: SilhouetteView[];
  motifs: MotifView[];
  selected: string;
  repeat: RepeatView;
  panel: PanelView;
  field: FieldView;
  sheet: SheetView;
  verdict: VerdictView;
  faults: FaultView[];
  fault: number;
  which: WhichView;
  mend: string;
  mendEffect: string;
  counts: CountsView | null;
  areas: AreasView | null;
  check: CheckView;
  pictures: number;
  message: MessageView | null;
  zoom: number;
  inHand: boolean;
  demonstrates: boolean;
  lay: Record<string, number>;
  repeats: Record<string, number | null>;
  signs: SignsView;
  pen: PenView;
  drawn: DrawnFault[];
  tie: TieView;
  retie: Record<string, number>;
  found: FoundView;
  gaps: GapsView;
  bench: [number, number, number];
  subjects: SubjectView[];
  subject: string;
  held: HeldView;
  paint: PaintView;
  mendsWanted: boolean;
}

// What is in hand, and where it is seen to lie on the panel.
interface HeldView {
  kind: string;
  name: string;
  which: string;
  x: number;
  y: number;
  turn: number;
  scale: number;
  mirrored: boolean;
  copy: CopyName;
}

interface CopyName {
  motif: string;
  op: number;
  cell: Point;
}

// desk.CopyList as JSON: a page of the copies on the panel.
interface CopyList {
  total: number;
  from: number;
  rows: CopyRow[];
}

interface CopyRow {
  copy: CopyName;
  name: string;
  which: string;
  x: number;
  y: number;
  cut: boolean;
  held: boolean;
}

interface PaintView {
  swatches: SwatchView[];
  ground: string;
  colours: string[];
  of: Record<string, string>;
  moved: number;
  byHand: HandView;
  reckoned: Record<string, number>;
  look: string;
  notes: string[];
}

interface SwatchView {
  id: string;
  name: string;
  colour: string;
  note: string;
  value: number;
  used: boolean;
}

interface HandView {
  copies: number;
  cells: Point;
  on: boolean;
  swatch: string;
}

interface SilhouetteView {
  id: string;
  name: string;
  width: number;
  height: number;
  points: number;
  motifs: number;
  path: string;
}

interface SubjectView {
  id: string;
  name: string;
  x: number;
  y: number;
  turn: number;
  scale: number;
  room: number;
  mirrored: boolean;
  edge: string;
  width: number;
  height: number;
  points: number;
  note: string;
}

interface MotifView {
  id: string;
  name: string;
  silhouette: string;
  x: number;
  y: number;
  turn: number;
  scale: number;
  mirrored: boolean;
  inCell: number;
  text: string;
  offers: string[];
}

interface RepeatView {
  group: string;
  older: string;
  a: number;
  b: number;
  gamma: number;
  free: Record<string, boolean>;
  inCell: number;
  hold: string;
  canHold: boolean;
  lays: string[];
  lay: string;
  fit: string;
  middle: Record<string, boolean>;
  fitted: boolean;
}

interface PanelView {
  width: number;
  height: number;
}

interface FieldView {
  margin: number;
  x: number;
  y: number;
  turn: number;
  edge: string;
}

interface SheetView {
  cut: string;
  stock: string;
  thickness: number;
  kerf: number;
  bridge: number;
  opening: number;
  width: number;
  height: number;
  bedWidth: number;
  bedHeight: number;
  refusal: string;
}

interface VerdictView {
  state: string;
  head: string;
  line: string;
  step: string;
  link: string;
}

interface FaultView {
  kind: string;
  severity: string;
  text: string;
  places: number;
  shows: string;
  step: string;
  mends: MendView[];
}

interface MendView {
  index: number;
  text: string;
  effect: string;
}

interface WhichView {
  noun: string;
  rest: string;
  all: string;
}

interface CountsView {
  copies: number;
  openings: number;
  islands: number;
}

interface AreasView {
  open: number;
  sheet: number;
}

interface CheckView {
  token: number;
  wanted: boolean;
  failed: boolean;
  reasons: string[];
}

interface MessageView {
  serial: number;
  text: string;
  tone: string;
}

interface SignsView {
  shown: boolean;
  text: string;
}

interface PenView {
  open: boolean;
  id: string;
  name: string;
  way: string;
  use: string;
  half: boolean;
  round: boolean;
  text: string;
  wrong: string;
  chosen: boolean;
  piece: boolean;
  line: number | null;
  point: number | null;
  to: number | null;
  x: number | null;
  y: number | null;
  axis: number;
  within: number;
  lines: number;
  points: number;
  set: number;
  map: [number, number, number];
}

interface DrawnFault {
  severity: string;
  text: string;
  places: number;
}

interface TieView {
  shown: boolean;
  count: number;
  chosen: boolean;
  width: number;
  text: string;
}

interface FoundView {
  text: string;
  wanted: boolean;
}

interface GapsView {
  shown: boolean;
  wanted: boolean;
}

// desk.GroupCard, desk.Action and desk.Label as JSON.
interface GroupCard {
  number: number;
  symbol: string;
  older: string;
  orbifold: string;
  family: string;
  line: string;
  about: string[];
}

interface Action {
  name: string;
  label: string;
  keys: string[] | null;
  group: string;
}

interface BenchLabel {
  x: number;
  y: number;
  text: string;
  kind: string;
  align: CanvasTextAlign;
  emph?: boolean;
  leader?: Point;
  reach?: number;
}

// desk.History as JSON: the open draft's steps, and which of them it rests in, from 0.
interface DraftHistory {
  steps: DraftStep[];
  now: number;
  resting: boolean;
}

interface DraftStep {
  id: number;
  origin: number;
  label: string;
}

// pattern.Command as JSON.
interface Command {
  name: string;
  id?: string;
  text?: string;
  values?: Record<string, number>;
  flag?: boolean;
  outline?: Outline;
  ties?: Tie[];
  repeat?: Repeat;
  motifs?: Motif[];
  swatches?: Swatch[];
  perms?: Perms;
}

interface Swatch {
  id: string;
  name: string;
  colour: string;
  note?: string;
}

// colouring.Perms: how the colours' numbers are carried into each other.
interface Perms {
  a: number[];
  b: number[];
  ops: number[][];
}

// Of a draft's file, what a fit finds.
interface Repeat {
  group: string;
  a: number;
  b: number;
  gamma: number;
}

interface Motif {
  id: string;
  silhouette: string;
  at: Point;
  turn: number;
  scale: number;
  mirrored: boolean;
}

type Outline = Point[][][];

interface Tie {
  silhouette: string | null;
  from: Point;
  to: Point;
  width: number;
}

// The bridge: what the editor puts on globalThis.openwork (wasm/editor/bridge_js.go). What is said to be JSON is its
// text; an outcome is {} or {"error": sentence}.
interface Bridge {
  view(): string;
  look(): null;
  groups(): string;
  actions(): string;
  command(json: string): string;
  act(name: string): string;
  select(motif: string): null;
  copies(from: number, count: number): string;
  holdCopy(motif: string, op: number, m: number, n: number): string;
  placeHeld(name: string, value: number): string;
  mirrorHeld(): string;
  goto(fault: number): null;
  open(text: string): string;
  demonstration(text: string): null;
  stepInHand(name: string): null;
  start(text: string): string;
  openLink(address: string): string;
  save(): string;
  history(): string;
  step(id: number): string;
  restore(json: string, texts: string[]): string;
  visit(id: number): string;
  filename(): string;
  link(): string;
  pieces(traced: string, chosen: string, mode: string, apart: string): string;
  pen(name: string, word: string, number: number): string;
  copySilhouette(id: string): string;
  mirrorSilhouette(id: string): string;
  pointer(kind: string, id: number, x: number, y: number, held: number, type: string): string;
  wheel(x: number, y: number, right: number, down: number, held: number): null;
  key(key: string, held: number, down: boolean, again: boolean): boolean;
  answer(token: number, json: string): string;
  checkAgain(): null;
  answerFailed(token: number, sentence: string): null;
  recognised(token: number, json: string): string;
  recogniseFailed(token: number): null;
  mends(token: number, json: string): string;
  mendsFailed(token: number): null;
  showGaps(on: boolean): null;
  gaps(token: number, json: string, pixels: Uint8Array): string;
  seeThrough(strength: number): null;
  subject(id: string): null;
  tangents(revision: number, json: string): string;
  brush(on: boolean, swatch: string): null;
  seeAs(look: string): string;
  mend(index: number): string;
  theme(name: string, palette: string): string;
}

declare var openwork: Bridge;

// What the page puts there for the editor to call.
interface PageCalls {
  openworkChanged(): void;
  openworkLabels(json: string): void;
  openworkWake(): void;
  openworkStarted(): void;
  openworkFailed(sentence: string): void;
}

declare var openworkChanged: PageCalls['openworkChanged'];
declare var openworkLabels: PageCalls['openworkLabels'];
declare var openworkWake: PageCalls['openworkWake'];
declare var openworkStarted: PageCalls['openworkStarted'];
declare var openworkFailed: PageCalls['openworkFailed'];

// The worker's verbs: what each is asked with beside the draft, and what it answers as JSON.
interface Verbs {
  check: {args: EngineRequest; answer: unknown};
  mends: {args: EngineRequest; answer: unknown};
  mend: {args: EngineRequest; answer: MendAnswer};
  recognise: {args: EngineRequest; answer: unknown};
  colourings: {args: EngineRequest; answer: ColouringRow[]};
  fit: {args: EngineRequest; answer: FittedRow[]};
  pictures: {args: EngineRequest; answer: PictureRow[]};
  coloured: {args: EngineRequest; answer: ColouredRow[]};
  settle: {args: EngineRequest; answer: Motif};
  steps: {args: EngineRequest; answer: StepsAnswer};
  join: {args: EngineRequest; answer: JoinAnswer};
  nest: {args: EngineRequest; answer: NestAnswer};
  cut: {args: EngineRequest; answer: CutAnswer};
  evenness: {args: EngineRequest; answer: EvennessAnswer};
  figure: {args: EngineRequest; answer: FigureRead[]};
  remake: {args: EngineRequest; answer: Outline};
  study: {args: EngineRequest; answer: StudyAnswer};
  job: {args: EngineRequest; answer: unknown};
  speeds: {args: EngineRequest; answer: SpeedRow[]};
  picture: {args: EngineRequest; answer: unknown};
  paint: {args: EngineRequest; answer: PaintAnswer};
  match: {args: EngineRequest; answer: MatchAnswer};
  trace: {args: EngineRequest; answer: Traced};
}

type Verb = keyof Verbs;

// What a lane resolves to (engine.mjs): the answer, its JSON, and the bytes of a file where there is one.
interface Answer<V extends Verb> {
  value: Verbs[V]['answer'];
  json: string;
  bytes: Uint8Array<ArrayBuffer>;
}

// Inputs of the verbs of wasm/engine: every member is left out where the verb does not need it.
interface EngineRequest {
  draft?: string;
  symbol?: string;
  k?: number;
  name?: string;
  width?: number;
  height?: number;
  motif?: string;
  way?: string;
  options?: TraceOptions;
  format?: string;
  cut?: Wishes;
  picture?: Wishes;
  study?: Wishes;
  job?: Wishes;
  paper?: string;
  sheets?: Wishes;
  stock?: Wishes;
  copies?: number;
  as?: string;
  also?: Wishes[];
  unsound?: string[];
  find?: string;
  groups?: string[];
  hold?: string;
  leave?: boolean;
  effort?: number;
  seconds?: number;
  seed?: number;
  mask?: boolean;
  colour?: string;
  units?: string;
  growth?: number;
  panels?: number;
  all?: boolean;
  plates?: boolean;
  overTies?: boolean;
  lap?: number;
  tubes?: Swatch[];
}

// Options of the core as far as the person has any (wishes.mjs); the engine's strict readers know their members.
type Wish = string | number | boolean | string[] | Drawn[] | SpeedRow[] | Wishes;

// Speed of pattern/machine: mm and mm/s; words for stocks with commas between.
interface SpeedRow {
  how: string;
  stock: string;
  thickness: number;
  speed: number;
}

// Drawn of pattern/letters: a piece of text as an outline, in sizes of the letters.
interface Drawn {
  text: string;
  width: number;
  outline: Outline;
}

interface Wishes {
  [name: string]: Wish;
}

// traceOptions of wasm/engine.
interface TraceOptions {
  dpi?: number;
  height?: number;
  points?: [Point, Point];
  distance?: number;
  upright?: number;
  crop?: Box;
  turn?: number;
  flat?: boolean;
  level?: number;
  invert?: boolean;
  pencil?: boolean;
  gap?: number;
  specks?: number;
  pinholes?: number;
  tolerance?: number;
  smoothing?: number;
  opening?: number;
  bridge?: number;
  look?: boolean;
}

type Box = [number, number, number, number];

// traced of wasm/engine.
interface Traced {
  pieces: string;
  list: TracedSize[];
  width: number;
  height: number;
  dpi: number;
  source: string;
  level: number;
  left: string[];
  failed: string;
  crop: Box;
  narrow: Narrow[];
  gaps: LineGap[];
  preview: PreviewPaths;
}

interface LineGap {
  px: [Point, Point];
  width: number;
  closes: number;
}

interface TracedSize {
  width: number;
  height: number;
  points: number;
  area: number;
  edge: boolean;
}

interface Narrow {
  kind: string;
  at: Point;
  ends: [Point, Point];
  width: number;
  px: [Point, Point];
  of: [number, number];
}

interface PreviewPaths {
  w: number;
  h: number;
  paths: string[];
}

// figureRead of wasm/engine: how a subject reads before the field, places in panel mm.
interface FigureRead {
  subject: string;
  name: string;
  tangents: Tangent[];
  said: string[];
}

interface Tangent {
  at: Point;
  length: number;
  reaches: number;
}

// evennessFound of wasm/engine: how even the gaps are, places in panel mm.
interface EvennessAnswer {
  narrowest: GapPlace | null;
  widest: GapPlace;
  middle: Point;
  alley: BandPlace | null;
  stripe: StripePlace;
  raster?: GapsRaster;
}

interface GapPlace {
  width: number;
  ends: [Point, Point];
}

interface BandPlace {
  width: number;
  ends: [Point, Point];
  edges: [Point, Point][];
}

interface StripePlace {
  contrast: number;
  across: Point;
  band: BandPlace;
}

interface GapsRaster {
  across: number;
  up: number;
  widest: number;
}

// paint.Reckoning: areas in mm², paste in ml and g.
interface PaintAnswer {
  swatches: PasteRow[];
  ground: string;
  panels: number;
}

interface PasteRow {
  swatch: string;
  openings: number;
  area: number;
  dry: number;
  wet: number;
  grams: number;
  tubs: number;
  all: PasteAmount;
  value: number;
}

interface MatchAnswer {
  tube: PaintMix;
  mix: PaintMix | null;
}

interface PaintMix {
  tubes: string[];
  parts: number[];
  colour: string;
  apart: number;
}

interface PasteAmount {
  dry: number;
  wet: number;
  grams: number;
  tubs: number;
}

interface MendAnswer {
  draft: string;
  added: number;
  text: string;
}

// A perfect colouring: each list says what the colours 0, 1 … become.
interface ColouringRow {
  kept: string;
  class: number;
  conjugates: number;
  a: number[];
  b: number[];
  ops: number[][];
}

interface ColouredRow extends ColouringRow {
  taken: boolean;
  offset: number;
  length: number;
}

interface FittedRow {
  group: string;
  find: string;
  cover: number;
  scale: number;
  narrowest: number;
  evenness: Evenness;
  special: boolean;
  draft: {repeat: Repeat; motifs: Motif[]};
  holds: boolean;
  was: FieldState;
  picture?: PictureRow;
}

interface Evenness {
  narrowest: number;
  widest: number;
  alley: number | null;
  stripe: number;
}

interface FieldState {
  cover: number;
  narrowest: number;
  clear: boolean;
}

interface PictureRow {
  symbol: string;
  offset: number;
  length: number;
}

interface CutAnswer {
  type: string;
  openings: number;
  notes: string[] | null;
  plates?: PlateFile[];
}

// Strips that ties leave across a plate's openings: under plates laid later, opened by a plate over them, and showing.
interface TiedPlate {
  number: number;
  under: number;
  over: number;
  bare: number;
}

// over: the plate over whose ties it is laid.
interface PlateFile {
  number: number;
  over?: number;
  ties: TiedPlate;
  lay: number;
  swatch: string;
  name: string;
  value: number;
  openings: number;
  sound: boolean;
  reasons: string[];
  offset: number;
  length: number;
}

interface StudyAnswer {
  made: StudyMade;
}

// Of what these are made of in Go, what the page reads.
interface StudyMade {
  pages: number;
  rows: number;
  columns: number;
  paper: string;
}

interface StepsAnswer {
  type: string;
  mapFrom: number;
  width: number;
  height: number;
  turn: number;
  places: StepPlace[];
  passes: number[][];
  trade: string;
  chosen: string[];
  notes: string[];
  plates: NamedPlate[];
  files?: PlateOf[];
  key: KeyRow[];
}

interface NamedPlate {
  number: number;
  name: string;
}

// Openings of a stepping sheet that are laid in a colour; no places: wherever they are laid.
interface KeyRow {
  name: string;
  openings: number[];
  places: number[];
}

// The cut file of one colour's stepping sheet.
interface PlateOf {
  plate: number;
  offset: number;
  length: number;
}

interface StepPlace {
  number: number;
  at: Point;
  pass: number;
  mask: number[];
}

interface JoinAnswer {
  type: string;
  files: JoinFile[];
  parts: JoinedPart[];
  joints: Joint[];
  chosen: string[];
  notes: string[];
  plates: NamedPlate[];
  mapFrom: number;
}

interface JoinFile {
  part: number;
  plate?: number;
  offset: number;
  length: number;
}

interface JoinedPart {
  number: number;
  at: Point;
  width: number;
  height: number;
  openings: number;
}

interface Joint {
  line: Point[];
  clear: number;
}

// nestOutput of wasm/engine: where pieces lie on stock.
interface NestAnswer {
  type: string;
  files: NestFile[];
  sheets: NestPlaced[][];
  pieces: NestPiece[];
  bound: number;
  share: number;
  notes: string[];
}

interface NestFile {
  sheet: number;
  offset: number;
  length: number;
}

interface NestPlaced {
  piece: number;
  at: Point;
  turned: boolean;
  quarters?: number;
  width: number;
  height: number;
}

interface NestPiece {
  name: string;
  width: number;
  height: number;
  count: number;
  outline?: Point[][];
}

// What the worker posts.
interface WorkerMessage {
  ready?: boolean;
  gone?: string;
  id?: number;
  part?: number;
  ok?: boolean;
  json?: string;
  bytes?: Uint8Array<ArrayBuffer>;
  error?: string;
}

// Go's loader, wasm_exec.js.
declare class Go {
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}

// A worker of the old kind (worker.js) loads it with this.
declare function importScripts(...addresses: string[]): void;

// Network Information: not in every browser, nor in TypeScript's own declarations.
interface Navigator {
  connection?: {saveData?: boolean};
}
