// Written by a test of package page from the structs of Go: the reports of commands.

declare namespace fitreport {
  interface Document {
    schema: string;
    title: string;
    between: [number, number];
    laws: string[];
    accept: string;
    tried: number;
    quickest: fitreport.Loop | null;
    gentlest: fitreport.Loop | null;
    held_back: Record<string, number>;
    standing: picturereport.Check[];
    unknown: picturereport.Check[];
  }
}
declare namespace fitreport {
  interface Loop {
    timeline_frames: number;
    captured_frames: number;
    screen_seconds: string;
    law: string;
    strain: number;
    command: string;
    picture: picturereport.Document | null;
  }
}
declare namespace footagereport {
  interface Again {
    frames: number | null;
    frames_standard_uncertainty: number | null;
    turn_s: number | null;
    turn_standard_uncertainty_s: number | null;
    faces: number;
    uneven_deg: number | null;
    hidden_share: number | null;
  }
}
declare namespace footagereport {
  interface Amiss {
    doubled: number[];
    dropped: footagereport.Gap[];
    cuts: number[];
    black: number[];
    white: number[];
    nothing_moves: boolean;
    repeats_itself_px: footagereport.Shift | null;
  }
}
declare namespace footagereport {
  interface Axis {
    axis: string;
    unit: string;
    told: boolean;
    px_per_unit: footagereport.Number;
    backlash: footagereport.Number;
    lost_steps: footagereport.Lost[];
  }
}
declare namespace footagereport {
  interface Beat {
    frequency_hz: number | null;
    depth: number | null;
    seen: boolean;
  }
}
declare namespace footagereport {
  interface Beside {
    verdict: string;
    words: string;
    recording_alone_differs: boolean;
    frames_of_the_timeline: boolean;
    bound_px: number | null;
    apart_px: number | null;
    differs_from_frame: number | null;
    causes: footagereport.Cause[];
    why_not_known: string[];
    not_proven: string[];
    frame_0: footagereport.Number;
    frame_0_known: boolean;
    frame_0_or: footagereport.Number[];
    slower_share: footagereport.Number;
    left_rms_px: number | null;
    left_worst_px: number | null;
    left_worst_frame: number;
    rounds: footagereport.Round[];
    axes: footagereport.Axis[];
    after_shake: footagereport.Shake | null;
    blows: footagereport.Blow[];
    drift_x_px_per_minute: footagereport.Number;
    drift_y_px_per_minute: footagereport.Number;
  }
}
declare namespace footagereport {
  interface Blow {
    frame: number | null;
    px: number | null;
    still_after_s: number | null;
  }
}
declare namespace footagereport {
  interface Cause {
    text: string;
    frame: number | null;
    px: number | null;
  }
}
declare namespace footagereport {
  interface Document {
    schema: string;
    recording: footagereport.Recording;
    shot: string;
    headline: string;
    but: string;
    plan: footagereport.Beside | null;
    pace: footagereport.Pace | null;
    loops: footagereport.Loop[];
    as_a_whole: footagereport.Whole | null;
    amiss: footagereport.Amiss;
    light: footagereport.Light | null;
    again: footagereport.Again | null;
    kept: footagereport.KeptFact | null;
    hands: footagereport.HandFact[];
    frames: footagereport.Frame[];
  }
}
declare namespace footagereport {
  interface Flicker {
    frequency_hz: number | null;
    frequency_standard_uncertainty_hz: number | null;
    stops: number | null;
    lamp_ripples_hz: string[];
  }
}
declare namespace footagereport {
  interface Frame {
    known: boolean;
    x_px: number | null;
    y_px: number | null;
    turn_deg: number | null;
    scale: number | null;
    x_standard_uncertainty_px: number | null;
    y_standard_uncertainty_px: number | null;
    shared: number | null;
    mean: number | null;
  }
}
declare namespace footagereport {
  interface Gap {
    before: number;
    missing: number;
  }
}
declare namespace footagereport {
  interface HandFact {
    cue: string;
    hand: string;
    round: number;
    window_opens: number | null;
    window_closes: number | null;
    how: string;
    off_frames: number;
    seen_from: number | null;
    seen_to: number | null;
    goes_on_frames: number;
    left: number | null;
    top: number | null;
    right: number | null;
    bottom: number | null;
    why_not_told: string;
  }
}
declare namespace footagereport {
  interface KeptFact {
    take: number;
    take_by: string;
    log: string;
    file: string;
    frame_0_by: string;
    frame_0: footagereport.Number;
    round: number;
    loop_in: number;
    loop_out: number;
    timecode_in: string;
    timecode_out: string;
    rounded_frames: number | null;
    as_good_as_its_best_loop: boolean;
    sentences: string[];
  }
}
declare namespace footagereport {
  interface Light {
    steps: footagereport.Step[];
    flicker: footagereport.Flicker[];
    drift_stops_per_minute: number | null;
    foretold: footagereport.Beat | null;
  }
}
declare namespace footagereport {
  interface Loop {
    from: number;
    to: number;
    frames: number;
    as_good_from: number;
    as_good_to: number;
    score: number | null;
    picture: number | null;
    motion: number | null;
    brightness_percent: number | null;
    unseen: boolean;
    dissolve_frames: number;
  }
}
declare namespace footagereport {
  interface Lost {
    frame: number | null;
    off: footagereport.Number;
    off_px: footagereport.Number;
  }
}
declare namespace footagereport {
  interface Number {
    value: number | null;
    standard_uncertainty: number | null;
  }
}
declare namespace footagereport {
  interface Pace {
    verdict: string;
    sentences: string[];
    not_proven: string[];
    frame_0: footagereport.Number;
  }
}
declare namespace footagereport {
  interface Recording {
    name: string;
    width_px: number;
    height_px: number;
    bits: number;
    frames_per_second: string;
    rate_is: string;
    timecode: string;
    first_frame: number;
    frames: number;
    pixel_step: number;
    remarks: string[];
    cut_short: string;
    stills: string[];
  }
}
declare namespace footagereport {
  interface Round {
    round: number;
    known: boolean;
    late_frames: footagereport.Number;
    late_ms: footagereport.Number;
    longer_frames: footagereport.Number;
  }
}
declare namespace footagereport {
  interface Shake {
    frequency_hz: number | null;
    frequency_standard_uncertainty_hz: number | null;
    damping: number | null;
    damping_standard_uncertainty: number | null;
    amplitude_px: footagereport.Number;
    rig_file_lines: string[];
  }
}
declare namespace footagereport {
  interface Shift {
    x: number | null;
    y: number | null;
  }
}
declare namespace footagereport {
  interface Step {
    frame: number;
    stops: number | null;
  }
}
declare namespace footagereport {
  interface Whole {
    jump: number | null;
    bound: number | null;
    light: number | null;
    unseen: boolean;
    last_shows_first_again: boolean;
  }
}
declare namespace musicreport {
  interface Loop {
    text: string;
    music_seconds: string;
    off_seconds: number;
    exact_tempo: string;
  }
}
declare namespace musicreport {
  interface Music {
    tempo: string;
    first_seconds: string;
    bar_beats: number;
    markers_file: string;
    markers: number;
    told: string[];
    loop?: musicreport.Loop;
    moments: musicreport.Spot[];
  }
}
declare namespace musicreport {
  interface Spot {
    for: string;
    text: string;
    screen_seconds: string;
    timeline_frame: number;
    off_seconds: number;
    off_frames: number;
  }
}
declare namespace picturereport {
  interface Bound {
    key: string;
    value: number;
    unit: string;
    source: string;
    own: boolean;
  }
}
declare namespace picturereport {
  interface Check {
    check: string;
    level: string;
    words: string;
    paced: boolean;
    figures: picturereport.Figure[];
    when: picturereport.When | null;
    missing: string[];
    cures: string[];
    failed: string[];
    advice: string[];
  }
}
declare namespace picturereport {
  interface Document {
    worst: string;
    checks: picturereport.Check[];
    assumed: string[];
    points: string[];
    would_tell: picturereport.Lack[];
    bounds: picturereport.Bound[];
    pulls?: picturereport.Pull[];
  }
}
declare namespace picturereport {
  interface Figure {
    name: string;
    value: number | null;
    unit: string;
  }
}
declare namespace picturereport {
  interface Lack {
    number: string;
    checks: string[];
  }
}
declare namespace picturereport {
  interface Pull {
    from_seconds: number;
    to_seconds: number;
    from_focus_mm: number;
    to_focus_mm: number;
    hand_needs_seconds: number;
    ring_deg_per_second: number | null;
  }
}
declare namespace picturereport {
  interface When {
    real_seconds: number;
    screen_seconds: number;
    captured_frame: number;
  }
}
declare namespace report {
  interface Default {
    key: string;
    value: string;
    why: string;
  }
}
declare namespace report {
  interface Verdict {
    ready: boolean;
    stamp: string;
    words: string;
    fails: string[];
    unknown: string[];
  }
}
declare namespace sequencereport {
  interface Carry {
    jump_px: number;
    kick_px_per_frame: number;
    turn_deg: number;
  }
}
declare namespace sequencereport {
  interface Cut {
    from: number;
    to: number;
    frame: number;
    label: string;
    momentum: string;
    seen: boolean;
    angle_deg: number;
    pace: number;
    rig_stands_otherwise: boolean;
    placed: boolean;
    jump_widths: number;
    grows: number;
    out: sequencereport.Side;
    in: sequencereport.Side;
    lacks: string[];
  }
}
declare namespace sequencereport {
  interface Document {
    schema: string;
    title: string;
    playback: string;
    frames: number;
    screen_seconds: string;
    first_label: string;
    last_label: string;
    pieces: sequencereport.Piece[];
    music?: musicreport.Music;
    cuts: sequencereport.Cut[];
    films: sequencereport.Film[];
    order: sequencereport.Order;
    needs: sequencereport.Needs;
    troubles: sequencereport.Trouble[];
    headlines: sequencereport.HeadOf[];
    defaults: report.Default[];
    proposals: sequencereport.Proposal[];
    events: sequencereport.Event[];
    joins: sequencereport.Join[];
  }
}
declare namespace sequencereport {
  interface Event {
    piece: number;
    take: number;
    filmed: boolean;
    reel: string;
    start: number;
    frames: number;
    first_captured: string;
    used_captured: string;
    recorded: number;
    round: number;
    before: number;
    after: number;
    again: boolean;
    loop: sequencereport.Carry | null;
    loop_shows: boolean;
  }
}
declare namespace sequencereport {
  interface Film {
    file: string;
    rig: string;
    light: string;
    takes: number;
    captured_frames: number;
    motion_seconds: string;
    record_seconds: string;
    bytes: number | null;
    records: string;
    take: sequencereport.Spent;
  }
}
declare namespace sequencereport {
  interface Flow {
    follows: string;
    x: number;
    y: number;
    right: number;
    up: number;
    toward: number;
  }
}
declare namespace sequencereport {
  interface HeadOf extends report.Verdict {
    file: string;
  }
}
declare namespace sequencereport {
  interface Join {
    kind: string;
    frame: number;
    carry: sequencereport.Carry | null;
    shows: boolean;
    dissolve_before: number;
    dissolve_after: number;
    stated: boolean;
    lacks: string;
    off_px: number | null;
  }
}
declare namespace sequencereport {
  interface Needs {
    takes: number;
    motion_seconds: string;
    record_seconds: string;
    change_seconds: string;
    between_seconds: string;
    day_seconds: string;
    bytes: number | null;
    card_bytes: number | null;
  }
}
declare namespace sequencereport {
  interface Order {
    films: number[];
    rig_changes: number;
    light_changes: number;
    least: boolean;
    counted: boolean;
  }
}
declare namespace sequencereport {
  interface Piece {
    file: string;
    title: string;
    label: string;
    start: number;
    from: number;
    frames: number;
    loop: number;
    film: number;
  }
}
declare namespace sequencereport {
  interface Proposal {
    cut: number;
    out_frame: number;
    in_frame: number;
    better: boolean;
    was: sequencereport.Carry;
    would: sequencereport.Carry;
  }
}
declare namespace sequencereport {
  interface Side {
    frame: number;
    captured_frame: number;
    flow: sequencereport.Flow | null;
    axes: sequencereport.Speed[];
  }
}
declare namespace sequencereport {
  interface Speed {
    axis: string;
    unit: string;
    speed: number;
  }
}
declare namespace sequencereport {
  interface Spent {
    slate_seconds: string;
    count_in_seconds: string;
    lead_seconds: string;
    run_up_seconds: string;
    rounds_seconds: string;
    run_out_seconds: string;
    return_seconds: string;
    all_seconds: string;
  }
}
declare namespace sequencereport {
  interface Trouble {
    file: string;
    text: string;
  }
}
declare namespace spinreport {
  interface Document {
    schema: string;
    title: string;
    capture: string;
    playback: string;
    retime: string;
    between: [string, string];
    considered: number;
    closing: number;
    loops: spinreport.Loop[];
    own_loop: spinreport.Loop | null;
    fits: spinreport.Fit[];
    measured: spinreport.MeasuredPeriod[];
    tables: spinreport.TableTurn[];
    defaults: report.Default[];
  }
}
declare namespace spinreport {
  interface Fit {
    kind: string;
    text: string;
    loop: spinreport.Loop | null;
  }
}
declare namespace spinreport {
  interface Length {
    capture: string;
    timeline_frames: number;
    captured_frames: number;
    screen_seconds: string;
  }
}
declare namespace spinreport {
  interface Loop extends spinreport.Length {
    cycle_frames: string;
    alike: number;
    closes: boolean;
    closes_for_sure: boolean;
    seams: spinreport.Seam[];
  }
}
declare namespace spinreport {
  interface MeasuredPeriod {
    stand: string;
    speed: string;
    period: string;
    uncertainty: string;
    scatter: number;
    readings: spinreport.Reading[];
  }
}
declare namespace spinreport {
  interface OffMatch {
    symmetry: number;
    match: number;
    turns: string;
    error_turns: string;
    error_degrees: number;
    error_frames: number;
    error_mm: number | null;
    error_pixels: number | null;
  }
}
declare namespace spinreport {
  interface Reading {
    text: string;
    turns: string;
    seconds: string;
    late: number;
  }
}
declare namespace spinreport {
  interface Seam extends spinreport.OffMatch {
    stand: string;
    speed: string;
    direction: string;
    period: string;
    period_uncertainty: string;
    uncertainty_degrees: number;
    bound_degrees: number;
    one_percent_faster_degrees: number;
    rounds_until_it_shows: number | null;
    turns_to_time_by_stopwatch: number | null;
    turns_to_time_in_the_picture: number | null;
    apparent_degrees_a_picture: number;
    reversal_period: string;
  }
}
declare namespace spinreport {
  interface TableTurn {
    name: string;
    turns: string;
    degrees_a_second: number;
    steps_a_round: string;
    part_of_a_step: string;
    rounds_to_whole_steps: number;
    run_up_frames: number;
    run_out_frames: number;
  }
}
