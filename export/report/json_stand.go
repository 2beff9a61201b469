package report

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
)

// Stand is a display stand that turns by itself during the loop.
type Stand struct {
	Name      string     `json:"name"`
	Speed     string     `json:"speed"`
	Direction string     `json:"direction"` // seen from above
	InPhase   bool       `json:"start_in_phase"`
	Start     float64    `json:"start"`       // degrees at frame 0
	Period    exact.Rat  `json:"period"`      // s a turn
	Sigma     exact.Rat  `json:"uncertainty"` // standard, of the period, s
	Basis     string     `json:"basis"`
	Drift     *exact.Rat `json:"drift"` // share of its speed; null where nothing is known of it
	Seam      StandSeam  `json:"seam"`
	Strobe    Strobe     `json:"strobe"`
}

// StandSeam is how far off its match a product is when the loop comes round.
type StandSeam struct {
	Symmetry    int64     `json:"symmetry"`
	Match       int64     `json:"match"` // faces turned at the match
	Turns       exact.Rat `json:"turns"` // made in the loop
	Error       exact.Rat `json:"error_turns"`
	Degrees     float64   `json:"error_degrees"`
	Frames      float64   `json:"error_frames"`       // captured frames
	Millimetres *float64  `json:"error_mm"`           // null without a radius
	Pixels      *float64  `json:"error_pixels"`       // null without a scale
	Spread      float64   `json:"uncertainty"`        // standard, of the error, degrees
	Percent     float64   `json:"one_percent_faster"` // degrees that a speed 1 % higher moves the seam
	Bound       float64   `json:"bound_degrees"`
	Stated      bool      `json:"bound_stated"` // by the shot: beyond it the plan does not hold
	Closes      bool      `json:"closes"`
	Sure        bool      `json:"closes_for_sure"`
	Rounds      *int64    `json:"rounds_until_it_shows"` // null: never
}

// Strobe is how a product seems to turn from one picture to the next.
type Strobe struct {
	Degrees   float64   `json:"degrees"`
	Apparent  float64   `json:"apparent_degrees"` // below 0 backwards
	Reversal  exact.Rat `json:"reversal_period"`  // s a turn: any faster and it seems to turn backwards
	Slowest   exact.Rat `json:"slowest_rate"`     // pictures a second below which it does
	Backwards bool      `json:"backwards"`
}

// Closing is what a search for loops that suit the stands found.
type Closing struct {
	Considered int64         `json:"considered"`
	Closing    int64         `json:"closing"`
	Nearest    []int64       `json:"nearest_timeline_frames"` // with nothing but the length changed
	Loops      []ClosingLoop `json:"loops"`                   // best first
	Fits       []string      `json:"fits"`                    // what would close, where none does
	Trouble    string        `json:"trouble,omitempty"`
}

// ClosingLoop is one loop of a search.
type ClosingLoop struct {
	Capture  exact.Rat   `json:"capture"`
	Screen   int64       `json:"timeline_frames"`
	Captured int64       `json:"captured_frames"`
	Seconds  exact.Rat   `json:"screen_seconds"`
	Speeds   []string    `json:"speeds"` // of each stand
	Seams    []StandSeam `json:"seams"`
	Closes   bool        `json:"closes"`
	Sure     bool        `json:"closes_for_sure"`
}

func standOf(pl *plan.Plan, s plan.Stand) Stand {
	return Stand{
		Name: s.Rig.Name, Speed: s.Speed.Name, Direction: s.Rig.Direction.String(), InPhase: s.Rig.Phased,
		Start: rounded(s.Spin.Start.Float(), peakDigits), Period: s.Speed.Period, Sigma: s.Speed.Sigma,
		Basis: s.Rig.Basis(s.Speed.Name), Drift: driftOf(s),
		Seam: seamOf(s.Seam), Strobe: strobeOf(pl, s.Speed.Period, s.Spin.Symmetry),
	}
}

func driftOf(s plan.Stand) *exact.Rat {
	if !s.Rig.Regulated {
		return nil
	}
	return &s.Rig.Regulation
}

func degreesOf(turns exact.Rat) float64 {
	return rounded(turns.Mul(exact.Int(360)).Float(), peakDigits)
}

func seamOf(s spin.Seam) StandSeam {
	out := StandSeam{
		Symmetry: s.Product.Symmetry, Match: s.Match, Turns: s.Turns, Error: s.Error, Degrees: degreesOf(s.Error),
		Frames: rounded(s.Frames().Float(), peakDigits), Spread: degreesOf(s.Spread), Percent: degreesOf(s.Off(exact.New(1, 100))),
		Bound: degreesOf(s.Bound), Stated: s.Product.Within.Unit != spin.Unstated, Closes: s.Closes(), Sure: s.Certain(),
	}
	if s.Product.Radius.Sign() > 0 {
		out.Millimetres = finite(s.Millimetres())
		if s.Product.Scale.Sign() > 0 {
			out.Pixels = finite(s.Pixels())
		}
	}
	if n, ever := s.Shows(); ever {
		out.Rounds = &n
	}
	return out
}

func strobeOf(pl *plan.Plan, period exact.Rat, symmetry int64) Strobe {
	s := spin.StrobeOf(period, pl.Loop.Clock.Pictures(), symmetry)
	return Strobe{degreesOf(s.True), degreesOf(s.Apparent), s.Reversal, s.Slowest, s.Backwards()}
}

// closingOf returns what would suit the stands; nil in a plan without any.
func closingOf(pl *plan.Plan) *Closing {
	if len(pl.Stands) == 0 {
		return nil
	}
	out := &Closing{Nearest: []int64{}, Loops: []ClosingLoop{}, Fits: []string{}}
	for _, l := range pl.Nearest() {
		out.Nearest = append(out.Nearest, l.Screen)
	}
	_, a, err := search(pl)
	if err != nil {
		out.Trouble = err.Error()
		return out
	}
	out.Considered, out.Closing = a.Considered, a.Closing
	for _, l := range a.Loops {
		one := ClosingLoop{Capture: l.Clock.Capture, Screen: l.Screen, Captured: l.Captured, Seconds: l.OnScreen(), Closes: l.Closes(), Sure: loopMark(l) == sureMark}
		for _, s := range l.Seams {
			one.Speeds, one.Seams = append(one.Speeds, s.Speed.Name), append(one.Seams, seamOf(s))
		}
		out.Loops = append(out.Loops, one)
	}
	for _, f := range a.Fits {
		out.Fits = append(out.Fits, f.Text)
	}
	return out
}
