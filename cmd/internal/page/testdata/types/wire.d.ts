// Written by a test of package page from the structs of Go: what goes over the wire.

declare namespace Wire {
  interface Accepted {
    film: string; // the name of the recording
    frame0: number | null;
    from: number | null;
    to: number | null;
    words: string;
    takes: number[]; // as which it can be kept, the last first
    why: string; // as none; "" where there are some
  }
  interface Answer {
    text: string;
    ms: number;
    faults: Fault[];
    view: View | null; // null where the text plans to nothing
    refused: boolean;
    fits: Fit[];
    at: string; // the path of what was added last
    told: string[]; // what came or went with a change
  }
  interface apartAnswer {
    here: Line[];
    there: Line[];
  }
  interface apartQuestion {
    here: string;
    there: string;
  }
  interface Asked {
    name: string;
    ask: string;
    value: string; // where nothing is answered
    least: string;
    most: string;
    wrong: string; // with the answer
  }
  interface asking {
    text: string;
    flags: Record<string, string>;
  }
  interface Axis {
    name: string;
    unit: string;
    kind: string;
    move: string;
    moves: Move[]; // that it can have
    law?: string;
    pos: number[];
    speedLimit: number; // units a real second; 0 where none is stated
    travel: [number, number] | null; // null where it is endless
    handles: Handle[];
    moveKeys: Value[];
    places: Place[]; // what its place can be marked as
  }
  interface AxisName {
    name: string;
    unit: string;
    speeds: number[]; // at which it is moved by hand, units/s, the least first
    rests: number[]; // of each, how far it goes on at the most once it is let go of, mm or degrees
  }
  interface beatQuestion {
    claim: string;
  }
  interface BuiltIn {
    controller: string;
    name: string;
  }
  interface Call {
    n: number; // one more than that of the call before
    hand: boolean;
    text: string;
    left: number; // beats still to come; 0 is now
    at: number; // when it was called, in ms as browsers count them
  }
  interface Card {
    title: string;
    text: string; // as it is on disk, or was not saved where it is not
    revision: string;
    frames: number; // captured
    seconds: number;
    pictured: boolean; // there is something to draw
    headline: Headline;
    faults: Fault[]; // why there is no plan
  }
  interface Carried {
    kind: string;
    closed?: boolean;
    at: [number, number][][];
  }
  interface claimed {
    claim: string;
  }
  interface Coming {
    text: string;
    in: number; // s until the first beat of it, or the next one where it has begun
  }
  interface conflict extends Disk {
    error: string;
  }
  interface controllerQuestion {
    text: string;
  }
  interface Curve {
    name: string;
    words: string;
    curve: [number, number][];
    pace: [number, number][];
  }
  interface Disk {
    text: string;
    revision: string; // "" where there is no file
  }
  interface DiskNews extends Disk {
    error?: string; // why it cannot be read; the text is then empty
    gone?: boolean; // there is no such file
  }
  interface done {
    ok: boolean; // it was passed on
    anew?: boolean; // it is planned anew, and to be asked again
  }
  interface doQuestion {
    claim: string;
    request: string;
    axis: number;
    by: number; // of a jog: mm or degrees
    speed: number; // of a hold: mm/s or degrees/s, below 0 towards lesser places
    press: number; // of a hold or a release: which press of a key or a button
    frame: number; // of a pose: captured
    name: string; // of a mark: a place of the axis
    text: string; // the shot as it is now; "" for as it was
  }
  interface Draft {
    id: string;
    text: string;
    revision: string; // of the file that it was made from
    when: number; // ms since 1970
  }
  interface draftQuestion {
    id: string;
    text: string;
    revision: string;
    drop: boolean; // it goes, where it has still this text
  }
  interface Drag {
    path: string;
    paths: string[]; // the keys of the shot that it changes
    x: number;
    y: number;
    kind: string; // "carriage", "product", "lamp", "hole" or "dark"
    label: string;
    told: string; // where it is, in the numbers that a drag changes
  }
  interface DriveState {
    open: boolean; // a run is under way
    state: string;
    takes: string[]; // the requests that the state takes
    lost: boolean; // the page that drives has not been heard of
    where: string; // the port, or "virtual"
    plan: string; // hash of the motion it runs
    axes: AxisName[];
    cautions: string[];
    readback: Readback[];
    said: Said[];
    count: number; // beats left of the count-in
    calls: Call[]; // beats of the count-in and of hands, the last of them
    next: Coming | null; // the hand whose count comes next, and when; null where that is not known
    take: number;
    round: number; // from 0; -1 in the run-up
    rounds: number; // of the take; 0 = until told to end
    frame: number; // captured
    back: boolean;
    taken: number; // of a take frame by frame: frames exposed
    of: number; // of it: frames in all; 0 of another
    left: number; // s of it until its last frame is exposed; 0 where that is not known
    timecode: string;
    elapsed: number; // s from frame 0
    share: number;
    pos: number[];
    seen: Seen | null; // where it was at one instant, and where the plan has it then; null before any take
    late: number; // s
    buffer: number; // 0..1
    marks: Mark[]; // places that were marked, for the page to set
    held: Held | null; // the axis that was moved by hand last
    passes: Pass[];
    ended?: string; // how the run ended, in words
    failed: boolean;
    wire: boolean; // what went over its wire can be downloaded
    runsOn: string; // what it does when it is told nothing any more
  }
  interface Edit {
    do?: string;
    path: string;
    value?: string;
    frame?: number; // captured, from frame 0
    pos?: number; // mm or degrees
    x?: number; // mm of the view from above
    y?: number;
  }
  interface Fault {
    file?: string;
    line: number;
    column: number;
    axis: string;
    text: string;
    fit: string;
    mends?: Mend[]; // what would do and the file can have
  }
  interface fileAnswer {
    file: string;
  }
  interface filmAccepts {
    film: string;
    frame0: number | null; // of the recording; null where it is left open
    from: number | null; // the loop that is shown; null where none is chosen
    to: number | null; // its last frame
  }
  interface FilmBegun {
    film: string;
    name: string; // what it is called
    replaced: string; // the take in whose place it is; "" for none
  }
  interface Filmed {
    name: string;
    frames: number;
    pictures: number; // of so many frames from the first on there is one
    cramped: string; // why not of all; "" where there is
    level: "good" | "fair" | "bad" | "unknown";
    stamp: string;
    words: string;
    report: string; // all of it
    plan: footagereport.Beside | null;
    pace: footagereport.Pace | null;
    loops: footagereport.Loop[];
    asWhole: footagereport.Whole | null; // null where all of it is no loop that was looked for
    zero: FilmZero;
    round: number; // captured frames from one round to the next
    rounds: number;
    panels: FilmPanel[];
  }
  interface FilmFile {
    file: string; // its name, without a folder
    bytes: number;
  }
  interface filmFiles {
    files: FilmFile[];
  }
  interface filmKeeps {
    film: string;
    take: number;
    trust: string; // "picture" or "mark" where they have frame 0 apart; ""
  }
  interface FilmKept {
    take: number;
    log: string;
    words: string[];
  }
  interface filmLaid {
    film: string;
    text: string; // of the shot whose take it is
  }
  interface FilmNews {
    frame: number; // how many were looked at
    of: number; // 0 where nobody knows
    looked?: boolean;
    error?: string;
  }
  interface FilmPanel {
    name: string;
    unit: string;
    least: number; // less than this is no motion
    measured: [number, number][];
    planned: [number, number][]; // empty where frame 0 is not known
  }
  interface filmQuestion {
    film: string;
  }
  interface FilmZero {
    at: number | null; // a frame of the recording; null where nothing tells it
    sure: number | null; // one standard uncertainty; null where nothing tells it
    others: number[];
    slower: number; // by what share more frames the recording has than the plan, by its clock or as it counts those of the timeline
  }
  interface Fit {
    text: string;
    edits: Set[];
    hand?: boolean; // it is a cure, and for a hand
  }
  interface Fitted extends fitreport.Document {
    take_quickest: Fit | null; // null as the loop is
    take_gentlest: Fit | null;
  }
  interface Follows {
    verdicts: Verdict[]; // in place of those that were pending; none where the plan must not be run anyway
    headline: Headline; // of these and of all others
  }
  interface groupQuestion {
    text: string;
    group: string;
  }
  interface Handle {
    path: string;
    kind: string;
    vary: string;
    frame: number; // captured
    pos: number; // mm or degrees
    label: string;
    unit: string;
    min: number | null; // mm or degrees, null where there is no bound
    max: number | null;
    step: number; // to the next place it can have; 0 = it can have any
  }
  interface Headline {
    level: "good" | "fair" | "bad" | "unknown";
    ready: boolean; // nothing keeps the rig from being driven
    stamp: string;
    words: string;
    worst: Worst | null; // null where nothing is wrong
  }
  interface Held {
    axis: number;
    gone: number; // mm or degrees since it was held
    moving: boolean;
    after: number; // s from the last word of the page about it to its rest
  }
  interface Item {
    kind: string;
    end: number; // 0 or 1 for what belongs to one end of the travel, else -1
    name?: string;
    label?: string;
    points: [number, number][];
    radius?: number; // mm, of a circle about the first point
    closed?: boolean;
  }
  interface keptAnswer {
    kept: boolean;
  }
  interface keyAnswer {
    key: string;
  }
  interface KindAnswer {
    name: string;
    line: string;
    why: string; // the rig cannot do it, and why
    questions: Asked[];
    file: string; // a name that is free
    rigFile: string; // that the shot will name
    writes: boolean; // it is written too
    frames: number; // captured
    seconds: number;
    headline: Headline;
    faults: Fault[];
  }
  interface Line {
    text: string;
    own: boolean;
  }
  interface madeAnswer {
    folder: string;
    text: string;
  }
  interface makeQuestion {
    text: string;
    folder: string;
  }
  interface Mark extends Set {
    over?: string; // the file under the shot that has the value now
    wrong: string[];
    fits: string[];
  }
  interface Mend {
    text: string;
    edits: Edit[];
    file?: string; // the rig's, where they are made in that
  }
  interface Move {
    name: string;
    words: string;
  }
  interface Moved {
    file: string;
    revision: string;
    with: string[]; // what moved with it
  }
  interface NameAnswer {
    file: string;
    wrong: string;
  }
  interface nameQuestion {
    file: string;
  }
  interface newRigQuestion {
    file: string;
    text: string;
  }
  interface News {
    disk?: DiskNews;
    under?: UnderNews;
    drive?: DriveState;
    beat?: number; // the first is 1
  }
  interface onceAnswer {
    once: string;
  }
  interface OnShelf {
    file: string;
    unsaved: boolean; // there is something of it that was not saved
    gone: boolean; // there is nothing else of it
  }
  interface openQuestion {
    text: string;
    port: string; // "virtual" for a rig made of software
    fast: boolean;
    countIn: number | null;
    endless: boolean; // round after round until asked to finish
    keepWire: boolean;
    group: string; // of takes that must match
    pass: string; // what of it they are
    goOn: boolean; // of a shot taken frame by frame: after the last frame that the log has
  }
  interface Over {
    value: string;
    file: string;
  }
  interface Pass {
    take: number;
    end: string;
    detail?: string;
    rounds: number;
    frames: number; // of a take frame by frame: exposed
    of: number; // of it: frames in all; 0 of another
    planned: number; // s
    lasted: number; // s, 0 where it did not end by itself
    held: boolean;
  }
  interface Place {
    name: string;
    means: string;
    now: string;
  }
  interface Placed {
    every: number;
    way: [number, number][]; // of the lens
    table: number[]; // degrees that the product has turned since frame 0
    carried: Carried[];
  }
  interface Port {
    name: string;
    about: string;
  }
  interface previewQuestion {
    text: string;
    edits: Edit[];
    width: number; // px
    from: number; // captured frames
    to: number; // 0 = the end of the loop; this one is not drawn any more
    every: number; // 0 = 1
    frames: number[];
    beside: boolean;
  }
  interface problem {
    error: string;
    faults: Fault[];
  }
  interface question {
    text: string;
    edits: Edit[];
    quick: boolean;
  }
  interface Readback {
    axis: string;
    setting: string; // what the controller calls it; "" where it is not asked
    what: string;
    wanted: string;
    compared: boolean; // and found the same
  }
  interface rigAnswer {
    said: string[]; // what was done, as it was done
    report: string; // as the connect command tells it
    text: string; // the rig file that is made of it
  }
  interface RigBench {
    file: string; // "" where the shot has none in the folder
    why: string; // what keeps it from being edited here
    text: string;
    revision: string;
    values: Value[];
    takes: Value[];
    files: string[]; // rig files of the folder, as the shot sees them
  }
  interface rigEdit {
    text: string; // of the shot
    file: string;
    revision: string;
    edits: Edit[];
    whole?: string; // as it was before, for Undo
  }
  interface RigFile {
    file: string;
    name: string;
    why: string; // it cannot be read, and why
  }
  interface rigFileQuestion {
    text: string;
  }
  interface rigQuestion {
    port: string; // "virtual" for a rig made of software
    text: string; // of the shot at hand, whose rig that is
    flags: Record<string, string>;
  }
  interface RigWritten {
    was: string;
    rig: RigBench;
    faults: Fault[];
  }
  interface Said {
    n: number;
    text: string;
  }
  interface saveAsQuestion {
    file: string;
    text: string;
  }
  interface saved {
    revision: string;
  }
  interface Seen {
    round: number;
    frame: number; // captured, within the round
    back: boolean;
    reported: boolean; // it is what the controller says, not the plan
    at: number[];
    plan: number[];
    off: number[]; // null where nothing is said of that
    inRound: number[]; // at, without what earlier rounds have turned on
  }
  interface sequenceQuestion {
    file: string;
  }
  interface Set {
    path: string;
    value: string;
  }
  interface setUpAnswer {
    file: string;
    path: string; // in that file
  }
  interface setUpQuestion {
    text: string;
    path: string; // in the shot
    value: string;
    was: string; // as the page knows it
  }
  interface Shelf {
    folder: string;
    version: string;
    driving: boolean; // a page drives a rig just now
    shots: OnShelf[]; // the last changed first
    left: number; // how many more there are
    rigs: RigFile[];
    builtIn: BuiltIn[]; // rigs that can be written beside a shot
  }
  interface Spun extends spinreport.Document {
    take: Fit[]; // of each loop
    offers: Fit[]; // of each fit
  }
  interface Stand {
    name: string;
    pos: number[];
    off: number; // degrees past its face at the seam
    bound: number;
  }
  interface Start {
    file: string;
    folder: string;
    text: string;
    revision: string;
    new: boolean; // there is no file yet; saving makes it
    title: string;
    version: string;
    rigFile: string;
    rigText: string;
    laws: Curve[];
    virtual: boolean;
    ports: Port[];
    drafts: Draft[]; // what tabs have not saved, the newest first
  }
  interface startQuestion {
    rig: string; // file in the folder; "" for a built-in one
    controller: string; // of the built-in one
    noTable: boolean;
    kind: string; // lantern for the built-in shot
    answers: Record<string, string>; // by the names of the questions; the others are as they stand
    file: string;
    fully: boolean; // the controller is looked at as well, which may take seconds
    width: number; // px, of a picture
    from: number;
    to: number;
    every: number;
  }
  interface stopQuestion {
    again: boolean; // while it slows down: at once
  }
  interface Take {
    take: number;
    virtual: boolean; // on a rig made of software, with a number of its own
    byHand: boolean; // it was not driven from here
    began: string;
    rounds: number;
    frames: number; // of one frame by frame: exposed; 0 of another
    of: number; // how many it has in all; 0 where the log does not say
    end: string;
    keep: boolean;
    rejected: string; // "" where it is not
    clip: string;
    driver: string;
    group: string;
    pass: string;
    notes: string[];
    plan: string;
  }
  interface TakeLog {
    text: string; // the shot as it was filmed
    rounds: number; // 0 = as many as it has
    took: number; // s by a stopwatch, from setting out to rest; 0 = nobody looked
    group: string;
    pass: string;
  }
  interface TakeMark {
    take: number;
    keep: boolean | null; // nil leaves it
    note: string;
    clip: string; // what the camera calls it
    reject: string; // it is of no use
  }
  interface takesAnswer {
    takes: Take[];
  }
  interface takesQuestion {
    mark: TakeMark | null;
    log: TakeLog | null;
  }
  interface textAnswer {
    text: string;
  }
  interface Thing {
    path: string;
    what: string;
    label: string;
    help: string;
  }
  interface TopView {
    items: Item[];
    box: [number, number, number, number]; // left, near, right, far
    stand: [number, number]; // where the lens is with every slide where it was measured
    drags: Drag[];
    placed: Placed;
    missing: string[];
  }
  interface UnderNews {
    files: string[];
    own: boolean; // the page wrote them itself
  }
  interface Value {
    path: string;
    label: string;
    words: string; // what the key is called
    in: string; // what its table is called
    help: string;
    value: string; // "" for a key that is not there
    unit: string;
    group: string; // the table it stands in
    choices?: string[];
    example?: string; // what it could be, of one that is not there
    file?: string; // under the shot, in which it stands
    over?: Over; // what it stands over
    known?: string; // of a rig: read, guessed, to be measured; "" for its author's word
    why?: string;
  }
  interface Verdict {
    level: "good" | "fair" | "bad" | "unknown";
    name: string;
    plain: string; // its name in plain words
    text: string;
    axis?: string;
    frame?: number; // captured, where it has an instant
    pending?: boolean; // it is being looked at
    fits: Fit[];
  }
  interface View {
    title: string;
    plan: string; // hash of the motion
    frames: number;
    captureHz: number;
    playbackHz: number;
    loopScreenSeconds: number;
    loopRealSeconds: number;
    timelineFrames: number;
    rounds: number;
    byFrame: boolean; // the rig rests for each frame
    syncMark: boolean; // the rig tells the camera when it is
    every: number; // captured frames from one place of an axis to the next
    sketch: boolean; // the picture was looked at in some of its frames, and nothing was looked for that would do
    axes: Axis[];
    stands: Stand[];
    above: TopView | null; // null where the shot has no scene to draw
    verdicts: Verdict[];
    headline: Headline;
    byHand: string[]; // what is set and pressed on a rig that nothing is sent to; empty for one that is driven
    cautions: string[]; // what to know before such a rig moves; one that is driven tells them as it is opened
    values: Value[];
    loop: Handle;
    takes: Value[]; // what each table that is there could have besides
    adds: Thing[]; // what can be added
    removes: Thing[]; // what can be taken out
  }
  interface Worst {
    name: string;
    plain: string;
    axis?: string;
    text: string;
    frame?: number;
    fit: Fit | null; // its first that can be made here, or the first for a hand; null where none was found
  }
  /** What each question asks; what is left out is nothing, 0 or false. */
  interface Questions {
    "apart": Some<apartQuestion>;
    "begin": Some<startQuestion>;
    "card": Some<{  }>;
    "controller": Some<controllerQuestion>;
    "cues": Some<asking>;
    "draft": Some<draftQuestion>;
    "drive/again": Some<beatQuestion>;
    "drive/beat": Some<beatQuestion>;
    "drive/do": Some<doQuestion>;
    "drive/open": Some<openQuestion>;
    "drive/stay": Some<beatQuestion>;
    "drive/stop": Some<stopQuestion>;
    "drive/watch": Some<{  }>;
    "drive/wire": {};
    "export": Some<{ text: string; form: string }>;
    "film/accept": Some<filmAccepts>;
    "film/begin": Some<filmFiles>;
    "film/bytes": {};
    "film/drop": Some<filmQuestion>;
    "film/keep": Some<filmKeeps>;
    "film/lay": Some<filmLaid>;
    "film/look": Some<filmQuestion>;
    "film/pictures": Some<{ film: string; frames: number[] }>;
    "fit": Some<asking>;
    "key": {};
    "kind": Some<startQuestion>;
    "kind/picture": Some<startQuestion>;
    "kinds": Some<startQuestion>;
    "make": Some<makeQuestion>;
    "name": Some<nameQuestion>;
    "plan": Some<question>;
    "preview": Some<previewQuestion>;
    "rename": Some<nameQuestion>;
    "rig/edit": Some<rigEdit>;
    "rig/file": Some<rigFileQuestion>;
    "rig/new": Some<newRigQuestion>;
    "rig/read": Some<rigQuestion>;
    "save": Some<Disk>;
    "save-as": Some<saveAsQuestion>;
    "sequence": Some<sequenceQuestion>;
    "set-up": Some<setUpQuestion>;
    "shelf": Some<{  }>;
    "spin": Some<asking>;
    "takes": Some<takesQuestion>;
    "takes/group": Some<groupQuestion>;
    "watch": Some<{ revision: string }>;
    "window": Some<{  }>;
  }
  /** What each is answered with, where that is JSON. */
  interface Answers {
    "apart": apartAnswer;
    "begin": fileAnswer;
    "card": Card;
    "controller": Follows;
    "cues": textAnswer;
    "draft": keptAnswer;
    "drive/again": claimed;
    "drive/beat": done;
    "drive/do": done;
    "drive/open": claimed;
    "drive/stop": done;
    "film/accept": Accepted;
    "film/begin": FilmBegun;
    "film/bytes": done;
    "film/drop": done;
    "film/keep": FilmKept;
    "film/lay": Filmed;
    "fit": Fitted;
    "key": keyAnswer;
    "kind": KindAnswer;
    "kinds": KindAnswer[];
    "make": madeAnswer;
    "name": NameAnswer;
    "plan": Answer;
    "rename": Moved;
    "rig/edit": RigWritten;
    "rig/file": RigBench;
    "rig/new": fileAnswer;
    "rig/read": rigAnswer;
    "save": saved;
    "save-as": Moved;
    "sequence": sequencereport.Document;
    "set-up": setUpAnswer;
    "shelf": Shelf;
    "spin": Spun;
    "start": Start;
    "takes": takesAnswer;
    "takes/group": textAnswer;
    "window": onceAnswer;
  }
}
