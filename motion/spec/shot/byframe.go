package shot

import (
	"fmt"
	"maps"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// RawByFrame is the [frame-by-frame] table: the rig goes from frame to frame and rests
// while each is exposed. All its times are real.
type RawByFrame struct {
	Place    source.Place `toml:"-"`
	Exposure source.Text  `toml:"exposure" jsonschema:"example=2 s,example=1/4 s" jsonschema_description:"How long each frame is exposed; left out, the shutter of the camera."`
	Shutter  source.Text  `toml:"shutter" jsonschema:"enum=camera,enum=bulb" jsonschema_description:"Whether the camera times the exposure, once it is told to begin (camera), or is exposed for as long as the release is held (bulb). Left out, camera."`
	Output   source.Text  `toml:"output" jsonschema:"example=shutter" jsonschema_description:"The output of the rig that the release is wired to; left out, a hand takes each frame."`
	Hand     source.Text  `toml:"hand" jsonschema:"example=taken,example=8 s" jsonschema_description:"Where a hand takes the frames: how long it has for each, or taken, and each is waited for until it is said to be."`
	Settle   source.Text  `toml:"settle" jsonschema:"example=foretold,example=1.5 s" jsonschema_description:"How long the rig is left to come to rest after a move: as long as its file foretells, or a time. Left out, foretold."`
	Still    source.Text  `toml:"still" jsonschema:"example=0.01 mm" jsonschema_description:"What is left of the after-shake, in mm of a linear axis and as many degrees of a rotary one, when the exposure may begin. Left out, half a pixel of the picture where its scale is known, and at most 0.01."`
	Card     source.Text  `toml:"card" jsonschema:"example=0.5 s" jsonschema_description:"How long after an exposure the camera takes no other one: it reads out and writes to its card. Left out, 0.5 s."`
	Every    source.Text  `toml:"every" jsonschema:"example=10 s" jsonschema_description:"From the beginning of one exposure to the next. Left out, as short as the frame that needs most lets it be."`
	Side     source.Text  `toml:"approach" jsonschema:"enum=as-it-comes,enum=one-side" jsonschema_description:"Whether an axis with play comes to each frame from the same side, by going a little beyond and coming back (one-side). Left out, as it comes."`
}

// ByFrame is how a shot is taken frame by frame. Times are real seconds.
type ByFrame struct {
	Exposure exact.Rat
	Bulb     bool      // the release is held for as long as the exposure
	Output   string    // of the rig, that the release is wired to; "" where a hand takes the frames
	Waits    bool      // for each frame to be told taken, by the hand
	Hand     exact.Rat // that the hand has for each frame, where it is not waited for
	Settle   exact.Rat // where it is stated
	Foretold bool      // else: as the rig's file foretells it
	Still    float64   // mm or degrees of after-shake that may be left; 0 = not stated
	Card     exact.Rat
	Every    exact.Rat // from frame to frame; of one that Asked for none a stand-in until it is planned
	Asked    bool      // Every is the shot's own
	OneSide  bool      // an axis with play comes to every frame from the same side
	Line     int       // of the table in the shot file
}

// Least is what each frame takes beside its move and its settling.
func (f ByFrame) Least() exact.Rat { return f.Exposure.Add(f.hand()).Add(f.Card) }

// hand is what a hand has before each exposure.
func (f ByFrame) hand() exact.Rat {
	if f.Output != "" || f.Waits {
		return exact.Rat{}
	}
	return f.Hand
}

// Where the table says nothing.
var (
	defaultCard = exact.New(1, 2) // common practice: a still of a busy camera is on its card within half a second
	// longMove stands for a move that is not known yet: longer than any on a tabletop.
	longMove = exact.Int(100)
	// longestWait bounds all times of the table, s: a day a frame.
	longestWait = exact.Int(86_400)
)

// byFrame reads [frame-by-frame], nil where the shot has none. What of the shot cannot be
// had with it is told, and the clock and the camera take from it what they need.
func (raw *Raw) byFrame(report *source.Report) *ByFrame {
	if raw.ByFrame == nil {
		return nil
	}
	r := frameReader{report, *raw.ByFrame}
	f := &ByFrame{Line: r.raw.Place.Line, Output: r.raw.Output.Text}
	f.Exposure = r.exposure(raw)
	f.Bulb = r.chosen(r.raw.Shutter, "shutter", "camera", "bulb")
	f.OneSide = r.chosen(r.raw.Side, "approach", "as-it-comes", "one-side")
	r.hand(f)
	r.settle(f)
	f.Card = r.timeOr(r.raw.Card, "card", defaultCard, "0.5 s", "what a camera needs between two stills, as is common")
	r.every(f)
	raw.paced(report, *f)
	return f
}

type frameReader struct {
	*source.Report
	raw RawByFrame
}

const framePath = "frame-by-frame."

// time reads a time that is above 0, or may be 0.
func (r frameReader) time(t source.Text, key string, zero bool) (exact.Rat, bool) {
	q, ok := r.Quantity(t, framePath+key, unit.Time)
	switch {
	case !ok:
		return exact.Rat{}, false
	case q.Value.Sign() < 0 || q.Value.Sign() == 0 && !zero || longestWait.Less(q.Value):
		r.Wrong(t, framePath+key, "must be above 0 and at most a day", `such as "2 s"`)
		return exact.Rat{}, false
	}
	return q.Value, true
}

// timeOr reads a time that may be left out.
func (r frameReader) timeOr(t source.Text, key string, usual exact.Rat, text, why string) exact.Rat {
	if !t.Set {
		r.Default(framePath+key, text, why)
		return usual
	}
	v, _ := r.time(t, key, true)
	return v
}

// chosen reads one of two words, and tells whether it is the second.
func (r frameReader) chosen(t source.Text, key, first, second string) bool {
	if !t.Set {
		r.Default(framePath+key, first, "the plainest")
		return false
	}
	word, _ := r.Choice(t, framePath+key, first, second)
	return word == second
}

// exposure is that of the table, or the camera's; the camera's shutter is then the same.
func (r frameReader) exposure(raw *Raw) exact.Rat {
	set := r.raw.Exposure
	if camera := raw.Camera; camera != nil {
		switch own := camera.Shutter; {
		case own.Set && set.Set:
			r.Wrong(set, framePath+"exposure", "is given, and so is camera.shutter", "keep one of the two")
		case own.Set:
			set = own
		default:
			with := *camera
			with.Shutter, raw.Camera = set, &with
		}
	}
	if !set.Set {
		r.Missing(r.raw.Place, framePath+"exposure", `"2 s"`)
		return exact.Int(1)
	}
	v, ok := r.time(set, "exposure", false)
	if !ok {
		return exact.Int(1)
	}
	return v
}

// taken is the word for a hand that is waited for.
const taken = "taken"

func (r frameReader) hand(f *ByFrame) {
	t := r.raw.Hand
	switch {
	case t.Set && r.raw.Output.Set:
		r.Wrong(t, framePath+"hand", "is given, and so is an output that takes the frames", "keep one of the two")
	case f.Output != "":
	case !t.Set:
		r.Default(framePath+"hand", taken, "no output is named: each frame is waited for until it is said to be taken")
		f.Waits = true
	case t.Text == taken:
		f.Waits = true
	default:
		f.Hand, _ = r.time(t, "hand", false)
	}
}

// foretoldWord is the word for what the rig's file foretells.
const foretoldWord = "foretold"

func (r frameReader) settle(f *ByFrame) {
	switch t := r.raw.Settle; {
	case !t.Set:
		r.Default(framePath+"settle", foretoldWord, "by the after-shake that the rig file states")
		f.Foretold = true
	case t.Text == foretoldWord:
		f.Foretold = true
	default:
		f.Settle, _ = r.time(t, "settle", true)
	}
	t := r.raw.Still
	if !t.Set {
		return
	}
	q, ok := r.Quantity(t, framePath+"still", unit.Length)
	if f.Still = q.Float(); ok && f.Still <= 0 {
		r.Wrong(t, framePath+"still", "must be above 0 mm", `such as "0.01 mm"`)
	}
	if ok && !f.Foretold {
		r.Wrong(t, framePath+"still", "bounds what is foretold, and settle is stated", "leave one of the two out")
	}
}

func (r frameReader) every(f *ByFrame) {
	least := f.Least().Add(f.Settle)
	f.Every = least.Add(longMove)
	if !r.raw.Every.Set {
		return
	}
	v, ok := r.time(r.raw.Every, "every", false)
	if !ok {
		return
	}
	f.Every, f.Asked = v, true
	if f.Waits && r.raw.Every.Origin == "" { // what frames need is told there as well
		r.Wrong(r.raw.Every, framePath+"every", "cannot be kept while each frame waits to be told taken", `give the hand a time, such as hand = "8 s", or leave every out`)
	}
	if v.Less(least) {
		r.Wrong(r.raw.Every, framePath+"every", fmt.Sprintf("must be at least %s s, without any move: the hand, the settling that is stated, the exposure and the card", least.Decimal(3)), "")
	}
}

// paced refuses what of a shot goes by a running camera, and makes its clock: a captured
// frame every so often.
func (raw *Raw) paced(report *source.Report, f ByFrame) {
	const alone = "goes by a camera that runs, and this one is exposed frame by frame"
	for _, t := range []struct {
		text source.Text
		path string
	}{{raw.Clock.Capture, "clock.capture"}, {raw.Clock.Retime, "clock.retime"}, {raw.Clock.Pace, "clock.pace"}} {
		if t.text.Set {
			report.Wrong(t.text, t.path, alone, "leave it out")
		}
	}
	for _, name := range slices.Sorted(maps.Keys(raw.Spin)) {
		report.Add(raw.Spin[name].Place, source.Join("spin", name), "", "turns by itself and waits for no frame", "leave it out, or turn the product with an axis")
	}
	for i, cue := range raw.Cue {
		report.Add(cue.Place, fmt.Sprintf("cue[%d]", i+1), "", alone, "leave it out: between two frames there is all the time that a hand needs")
	}
	if raw.SyncMark != nil {
		report.Add(raw.SyncMark.Place, "sync-mark", "", alone, "leave it out: the first frame that is taken is frame 0")
	}
	if raw.Camera != nil && raw.Camera.Pull != nil {
		report.Add(raw.Camera.Pull.Place, "camera.pull", "", alone, "state one focus; between two frames there is time to set another by its mark")
	}
	raw.Clock.Capture = source.Text{Text: f.Every.Inv().String(), Set: true}
	raw.Clock.Retime, raw.Clock.Pace = source.Text{}, source.Text{}
	if !raw.Take.Rounds.Set {
		raw.Take.Rounds = source.Text{Text: "1", Set: true}
		report.Default("take.rounds", "1", "each frame is taken once")
	}
}
