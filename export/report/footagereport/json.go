package footagereport

import (
	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
)

// Schema names the layout of the JSON report. It changes when a key changes its meaning or goes;
// keys may be added.
const Schema = "seamrail-footage/1"

// Document is the JSON report of one recording.
type Document struct {
	Schema    string     `json:"schema"`
	Recording Recording  `json:"recording"`
	Shot      string     `json:"shot"` // its title; "" where there is none
	Headline  string     `json:"headline"`
	But       string     `json:"but"`  // what is wrong with a recording that is the plan; "" where nothing is
	Plan      *Beside    `json:"plan"` // null without a shot
	Pace      *Pace      `json:"pace"` // null where the course of the picture tells
	Loops     []Loop     `json:"loops"`
	AsWhole   *Whole     `json:"as_a_whole"` // null where all of it is no loop that was looked for
	Amiss     Amiss      `json:"amiss"`
	Light     *Light     `json:"light"` // null where there are too few frames
	Again     *Again     `json:"again"` // null where nothing comes again
	Kept      *KeptFact  `json:"kept"`  // null where it is not kept
	Hands     []HandFact `json:"hands"` // what hands were to do in the take
	Frames    []Frame    `json:"frames"`
}

// Recording is what was looked through.
type Recording struct {
	Name      string    `json:"name"`
	Width     int       `json:"width_px"`
	Height    int       `json:"height_px"`
	Bits      int       `json:"bits"` // a channel; 0 where it is not told
	Rate      exact.Rat `json:"frames_per_second"`
	RateIs    string    `json:"rate_is"` // "capture", "playback" or "neither" of the shot; "" where nobody can say
	Timecode  string    `json:"timecode"`
	First     int       `json:"first_frame"` // that was looked at
	Frames    int       `json:"frames"`      // that were
	Step      float64   `json:"pixel_step"`  // recorded pixels to one that was looked at
	Remarks   []string  `json:"remarks"`
	CutShort  string    `json:"cut_short"` // why it ended before it should
	StillName []string  `json:"stills"`    // the file of each frame, where it is stills
}

// Number is a value with its standard uncertainty, null where nothing tells it.
type Number struct {
	Value *float64 `json:"value"`
	Sure  *float64 `json:"standard_uncertainty"`
}

// Beside is the take beside its plan.
type Beside struct {
	Verdict     string   `json:"verdict"` // "plan", "differs" or "not known"
	Words       string   `json:"words"`
	Mended      bool     `json:"recording_alone_differs"` // the plan but for frames that it lacks or has twice
	Timeline    bool     `json:"frames_of_the_timeline"`  // it has those, not the captured ones
	Bound       *float64 `json:"bound_px"`
	Apart       *float64 `json:"apart_px"`
	From        *float64 `json:"differs_from_frame"`
	Causes      []Cause  `json:"causes"`
	Why         []string `json:"why_not_known"`
	Unproven    []string `json:"not_proven"`
	Frame0      Number   `json:"frame_0"`
	Frame0Known bool     `json:"frame_0_known"`
	Others      []Number `json:"frame_0_or"`
	Slower      Number   `json:"slower_share"`
	RMS         *float64 `json:"left_rms_px"`
	Worst       *float64 `json:"left_worst_px"`
	WorstFrame  int      `json:"left_worst_frame"`
	Rounds      []Round  `json:"rounds"`
	Axes        []Axis   `json:"axes"`
	Shake       *Shake   `json:"after_shake"`
	Blows       []Blow   `json:"blows"`
	DriftX      Number   `json:"drift_x_px_per_minute"`
	DriftY      Number   `json:"drift_y_px_per_minute"`
}

// Pace is what is known of a take whose picture has no one shift, by how much it changes.
type Pace struct {
	Verdict   string   `json:"verdict"` // "by its times", "differs" or "not known"
	Sentences []string `json:"sentences"`
	Unproven  []string `json:"not_proven"`
	Frame0    Number   `json:"frame_0"`
}

// Cause is what most likely made the difference.
type Cause struct {
	Text  string   `json:"text"`
	Frame *float64 `json:"frame"`
	Px    *float64 `json:"px"`
}

// Round is how late a round was.
type Round struct {
	Round  int    `json:"round"` // from 1
	Known  bool   `json:"known"`
	Late   Number `json:"late_frames"`
	MS     Number `json:"late_ms"`
	Longer Number `json:"longer_frames"`
}

// Axis is how an axis showed.
type Axis struct {
	Name string `json:"axis"`
	Unit string `json:"unit"` // mm or deg
	Told bool   `json:"told"`
	Gain Number `json:"px_per_unit"`
	Play Number `json:"backlash"`
	Lost []Lost `json:"lost_steps"`
}

// Lost are steps that were lost.
type Lost struct {
	Frame *float64 `json:"frame"`
	Units Number   `json:"off"`
	Px    Number   `json:"off_px"`
}

// Shake is what swings after moves.
type Shake struct {
	Hz          *float64 `json:"frequency_hz"`
	HzSure      *float64 `json:"frequency_standard_uncertainty_hz"`
	Damping     *float64 `json:"damping"`
	DampingSure *float64 `json:"damping_standard_uncertainty"`
	Px          Number   `json:"amplitude_px"`
	Lines       []string `json:"rig_file_lines"` // none where it is known too badly to be kept
}

// Blow is a blow to the table.
type Blow struct {
	Frame *float64 `json:"frame"`
	Px    *float64 `json:"px"`
	Still *float64 `json:"still_after_s"`
}

// Loop are loops of one length that are as good as each other.
type Loop struct {
	From       int      `json:"from"`
	To         int      `json:"to"` // the last that is shown
	Frames     int      `json:"frames"`
	First      int      `json:"as_good_from"`
	Last       int      `json:"as_good_to"`
	Score      *float64 `json:"score"`
	Picture    *float64 `json:"picture"`
	Motion     *float64 `json:"motion"`
	Brightness *float64 `json:"brightness_percent"`
	Unseen     bool     `json:"unseen"`
	Dissolve   int      `json:"dissolve_frames"`
}

// Whole is how the recording goes on from its last frame to its first.
type Whole struct {
	Jump   *float64 `json:"jump"`
	Bound  *float64 `json:"bound"`
	Light  *float64 `json:"light"`
	Unseen bool     `json:"unseen"`
	Twice  bool     `json:"last_shows_first_again"`
}

// Amiss is what is wrong with the frames themselves: each first frame that is otherwise.
type Amiss struct {
	Doubled []int  `json:"doubled"`
	Dropped []Gap  `json:"dropped"`
	Cuts    []int  `json:"cuts"`
	Black   []int  `json:"black"`
	White   []int  `json:"white"`
	Still   bool   `json:"nothing_moves"`
	Repeats *Shift `json:"repeats_itself_px"` // null where the picture does not
}

// Shift is one in recorded pixels, to the right and down.
type Shift struct {
	X *float64 `json:"x"`
	Y *float64 `json:"y"`
}

// Gap is before a frame, and how many are missing there.
type Gap struct {
	Before  int `json:"before"`
	Missing int `json:"missing"`
}

// Light is what the light did.
type Light struct {
	Steps    []Step    `json:"steps"`
	Flicker  []Flicker `json:"flicker"`
	Drift    *float64  `json:"drift_stops_per_minute"`
	Foretold *Beat     `json:"foretold"` // by the plan; null where it could not say, or without a shot
}

// Beat is a flicker that the plan foretold.
type Beat struct {
	Hz    *float64 `json:"frequency_hz"`
	Depth *float64 `json:"depth"`
	Seen  bool     `json:"seen"` // one was filmed at that frequency
}

// Step is a sudden change that lasts.
type Step struct {
	Frame int      `json:"frame"`
	Stops *float64 `json:"stops"`
}

// Flicker comes and goes.
type Flicker struct {
	Hz    *float64 `json:"frequency_hz"`
	Sure  *float64 `json:"frequency_standard_uncertainty_hz"`
	Stops *float64 `json:"stops"`
	Lamps []string `json:"lamp_ripples_hz"` // that would beat so, exactly
}

// Again is after how long the picture is the same again.
type Again struct {
	Frames     *float64 `json:"frames"`
	FramesSure *float64 `json:"frames_standard_uncertainty"`
	Turn       *float64 `json:"turn_s"` // null where nothing tells how many faces there are
	TurnSure   *float64 `json:"turn_standard_uncertainty_s"`
	Faces      int      `json:"faces"`
	Uneven     *float64 `json:"uneven_deg"`   // root mean square off a steady turn; null where no turn is known
	Hidden     *float64 `json:"hidden_share"` // by how much turns of so many faces may differ and not be told
}

// Frame is what was measured of one frame: where it lies beside the first that was looked at.
type Frame struct {
	Known  bool     `json:"known"`
	X      *float64 `json:"x_px"`
	Y      *float64 `json:"y_px"`
	Turn   *float64 `json:"turn_deg"`
	Scale  *float64 `json:"scale"`
	SureX  *float64 `json:"x_standard_uncertainty_px"`
	SureY  *float64 `json:"y_standard_uncertainty_px"`
	Shared *float64 `json:"shared"`
	Mean   *float64 `json:"mean"`
}

// kept is what numbers keep.
var kept = report.Rounding{Digits: 6, Grain: 1e-9}

func numberOf(n against.Number) Number { return Number{kept.OrNull(n.Value), kept.OrNull(n.Sure)} }

// Facts tells it to programs: a Document.
func (d Data) Facts() any { return d.document() }

func (d Data) document() Document {
	a := d.Course.About
	_, stamp, _ := d.headline()
	out := Document{
		Schema: Schema, Shot: d.Shot, Headline: stamp, But: d.but(), Loops: []Loop{}, Frames: report.Each(d.Course.Frames, frameOf),
		Recording: Recording{
			Name: a.Name, Width: a.Width, Height: a.Height, Bits: a.Bits, Rate: a.Rate, RateIs: d.rateIs(), Timecode: a.Start,
			First: d.First, Frames: len(d.Course.Frames), Step: kept.Of(d.Step), Remarks: report.List(d.Remarks), CutShort: d.Cut, StillName: report.List(d.Stills),
		},
	}
	out.Amiss, out.Light, out.Again = d.amiss(), d.lightFacts(), d.again()
	out.Kept, out.Hands = d.keptFact(), d.handFacts()
	if d.Plan != nil {
		out.Plan, out.Pace = d.beside(), d.paceFacts()
	}
	if w := d.AsWhole; w != nil {
		out.AsWhole = &Whole{kept.OrNull(w.Jump), kept.OrNull(w.Bound), kept.OrNull(w.Light), w.Unseen(), w.Twice}
	}
	if d.Loops != nil {
		out.Loops = report.Each(d.Loops.Runs, d.loopOf)
	}
	return out
}

func frameOf(f footage.Frame) Frame {
	p := f.FromFirst
	out := Frame{Known: p.Known, Shared: kept.OrNull(p.Shared), Mean: kept.OrNull(f.Mean)}
	if p.Known {
		out.X, out.Y, out.Turn, out.Scale = kept.OrNull(p.X), kept.OrNull(p.Y), kept.OrNull(p.Turn), kept.OrNull(p.Scale)
		out.SureX, out.SureY = kept.OrNull(p.Doubt.X), kept.OrNull(p.Doubt.Y)
	}
	return out
}

func (d Data) loopOf(r alike.Run) Loop {
	return Loop{
		From: d.at(r.First), To: d.at(r.Last() - 1), Frames: r.Length, First: d.at(r.From), Last: d.at(r.To),
		Score: kept.OrNull(r.Score), Picture: kept.OrNull(r.Equalised), Motion: kept.OrNull(r.Motion), Brightness: kept.OrNull(r.Brightness),
		Unseen: r.Unseen, Dissolve: r.Dissolve,
	}
}

// verdicts are the words for programs.
func verdictWord(k against.Kind) string {
	switch k {
	case against.IsPlan:
		return "plan"
	case against.Differs:
		return "differs"
	default:
		return "not known"
	}
}

func (d Data) beside() *Beside {
	p, v := d.Plan, d.Plan.Verdict
	out := &Beside{
		Verdict: verdictWord(v.Kind), Words: v.Text, Mended: v.Mended, Timeline: p.Timeline, Bound: kept.OrNull(v.Bound), Apart: kept.OrNull(v.Apart),
		Why: report.List(v.Why), Unproven: report.List(v.Unproven), Frame0: numberOf(d.frame(p.Frame0.Number)), Frame0Known: p.Frame0.Known,
		Others: report.Each(p.Frame0.Others, func(n against.Number) Number { return numberOf(d.frame(n)) }),
		Slower: numberOf(p.Rate), RMS: kept.OrNull(p.Left.RMS), Worst: kept.OrNull(p.Left.Worst), WorstFrame: d.at(p.Left.Frame),
		DriftX: numberOf(p.Drift.X), DriftY: numberOf(p.Drift.Y),
		Causes: report.Each(v.Causes, func(c against.Reason) Cause { return Cause{c.Text, d.place0(c.Frame), kept.OrNull(c.Px)} }),
		Rounds: report.Each(p.Rounds, func(r against.Round) Round {
			return Round{r.Index + 1, r.Known, numberOf(r.Late), numberOf(r.MS), numberOf(r.Longer)}
		}),
		Blows: report.Each(p.Blows, func(b against.Shock) Blow {
			return Blow{d.place0(b.Frame), kept.OrNull(b.Px), kept.OrNull(b.Still)}
		}),
		Axes: []Axis{},
	}
	if v.From >= 0 {
		out.From = d.place0(v.From)
	}
	for n, a := range p.Axes {
		out.Axes = append(out.Axes, Axis{a.Name, d.Units[n], a.Told, numberOf(a.PxPerUnit), numberOf(a.Backlash), report.Each(a.Lost, func(l against.Lost) Lost {
			return Lost{d.place0(l.Frame), numberOf(l.Units), numberOf(l.Px)}
		})})
	}
	if s := p.Shake; s != nil {
		out.Shake = &Shake{kept.OrNull(s.Spring.Frequency), kept.OrNull(s.FrequencySure), kept.OrNull(s.Spring.Damping), kept.OrNull(s.DampingSure), numberOf(s.Amplitude), report.List(d.shakeLines())}
	}
	return out
}

// place0 is a frame of the recording, counted as the recording counts.
func (d Data) place0(frame float64) *float64 { return kept.OrNull(frame + float64(d.First)) }
