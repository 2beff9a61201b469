package planreport

import (
	"cmp"
	"fmt"
	"strings"

	"seamrail/export/report"
	"seamrail/export/report/spinreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
)

// stand tells of a display stand: how it turns and how the loop suits it.
func (p *page) stand(s plan.Stand) {
	p.Member(s.Rig.Name, "stands", strings.ToUpper(s.Rig.Name)+", A STAND THAT TURNS BY ITSELF")
	p.Field("turns", standTurns(s))
	p.Field("in a loop", standLoop(s))
	p.Toned(standTone(s), "seam", standSeam(s))
	p.Field("known to", standKnown(s.Seam))
	assume := spin.Assume{Capture: p.pl.Loop.Clock.Capture}
	p.Field("to know more", cmp.Or(spinreport.Keeps(s.Seam, assume), spinreport.Needs(s.Seam, assume)))
	p.Field("each round", spinreport.Drift(s.Seam))
	p.Field("1 % faster", spinreport.Off(s.Seam, spinreport.OnePerCent))
	if d := s.Rig.Regulation; d.Sign() > 0 && !d.Equal(spinreport.OnePerCent) {
		p.Field("its drift", fmt.Sprintf("of %s %% either way: %s", d.Mul(exact.Int(100)).Decimal(2), spinreport.Off(s.Seam, d)))
	}
	p.strobe(s.Speed.Period, s.Spin.Symmetry)
	start := spin.AnyFace + ". " + spin.MarkFace
	if s.Rig.Phased {
		start = "in phase: frame 0 finds it at " + unit.Format(s.Spin.Start.Float(), unit.Angle)
	}
	p.Field("start", start)
}

func standTurns(s plan.Stand) string {
	words := fmt.Sprintf("%s seen from above, its near face to the %s; a turn in %s s ± %s s at its speed %s", s.Rig.Direction, nearFace(s.Rig.Direction),
		s.Speed.Period.Decimal(4), s.Speed.Sigma.Decimal(4), s.Speed.Name)
	if basis := s.Rig.Basis(s.Speed.Name); basis != "" {
		words += ", " + basis
	}
	return words + "; nothing here starts or stops it"
}

// nearFace says which way the face goes that the camera sees: seen from above,
// with the camera below, a clockwise turn takes the near side to the left.
func nearFace(d spin.Direction) string {
	if d == spin.Clockwise {
		return "left"
	}
	return "right"
}

func standLoop(s plan.Stand) string {
	words := fmt.Sprintf("%s; it matches at %s", spinreport.Angle(s.Seam.Turns), spinreport.Angle(exact.New(s.Seam.Match, s.Spin.Symmetry)))
	if s.Spin.Symmetry == 1 {
		return words + ", " + plain.Count(s.Seam.Match, "turn")
	}
	return fmt.Sprintf("%s, %s of %d a turn", words, plain.Count(s.Seam.Match, "face"), s.Spin.Symmetry)
}

func standTone(s plan.Stand) report.Tone {
	switch {
	case s.Seam.Certain():
		return report.Good
	case s.Refuses():
		return report.Poor
	}
	return report.Fair
}

// standSeam says how far off it is and whether that will do.
func standSeam(s plan.Stand) string {
	words, bound := spinreport.Error(s.Seam), "the bound of "+spinreport.Bound(s.Seam)
	switch {
	case s.Seam.Certain():
		return words + "; within " + bound
	case s.Seam.Closes() && s.Refuses():
		return words + " if its speed is as the rig file says; it is not known to keep " + bound + ", which the shot states"
	case s.Seam.Closes():
		return words + " if its speed is as the rig file says; it is not known to keep " + bound
	case s.Refuses():
		return words + "; beyond " + bound + ", which the shot states"
	}
	return words + "; beyond " + bound + ": the picture jumps at every repeat"
}

// standKnown says how well the error is known, and what a drift that is stated
// leaves of that.
func standKnown(s spin.Seam) string {
	words := spinreport.Known(s)
	switch {
	case !s.Sure():
		return words
	case s.Certain():
		return words + ", and as it drifts"
	case !s.Product.Stand.Regulated:
		return words + ", and how far it drifts nobody has said"
	}
	return words + ", and its drift can undo that"
}

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
	spinreport.OffMatch
	Spread  float64 `json:"uncertainty"`        // standard, of the error, degrees
	Percent float64 `json:"one_percent_faster"` // degrees that a speed 1 % higher moves the seam
	Bound   float64 `json:"bound_degrees"`
	Stated  bool    `json:"bound_stated"` // by the shot: beyond it the plan does not hold
	Closes  bool    `json:"closes"`
	Sure    bool    `json:"closes_for_sure"`
	Rounds  *int64  `json:"rounds_until_it_shows"` // null: never
}

// Strobe is how a product seems to turn from one picture to the next.
type Strobe struct {
	Degrees   float64   `json:"degrees"`
	Apparent  float64   `json:"apparent_degrees"` // below 0 backwards
	Reversal  exact.Rat `json:"reversal_period"`  // s a turn: any faster and it seems to turn backwards
	Slowest   exact.Rat `json:"slowest_rate"`     // pictures a second below which it does
	Backwards bool      `json:"backwards"`
}

func standOf(pl *plan.Plan, s plan.Stand) Stand {
	out := Stand{
		Name: s.Rig.Name, Speed: s.Speed.Name, Direction: s.Rig.Direction.String(), InPhase: s.Rig.Phased,
		Start: peaks.Of(s.Spin.Start.Float()), Period: s.Speed.Period, Sigma: s.Speed.Sigma,
		Basis: s.Rig.Basis(s.Speed.Name), Seam: seamOf(s.Seam), Strobe: strobeOf(pl, s.Speed.Period, s.Spin.Symmetry),
	}
	if s.Rig.Regulated {
		out.Drift = &s.Rig.Regulation
	}
	return out
}

func seamOf(s spin.Seam) StandSeam {
	out := StandSeam{
		OffMatch: spinreport.OffMatchOf(s), Spread: spinreport.Degrees(s.Spread), Percent: spinreport.Degrees(s.Off(spinreport.OnePerCent)),
		Bound: spinreport.Degrees(s.Bound), Stated: s.Product.Within.Unit != spin.Unstated, Closes: s.Closes(), Sure: s.Certain(),
	}
	if n, ever := s.Shows(); ever {
		out.Rounds = &n
	}
	return out
}

func strobeOf(pl *plan.Plan, period exact.Rat, symmetry int64) Strobe {
	s := spin.StrobeOf(period, pl.Loop.Clock.Pictures(), symmetry)
	return Strobe{spinreport.Degrees(s.True), spinreport.Degrees(s.Apparent), s.Reversal, s.Slowest, s.Backwards()}
}
