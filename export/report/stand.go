package report

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/export/spinwords"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
)

// onePerCent is what the speed of a stand is off by before anyone notices.
var onePerCent = exact.New(1, 100)

// stand tells of a display stand: how it turns and how the loop suits it.
func (p *page) stand(pl *plan.Plan, s plan.Stand) {
	p.Section(strings.ToUpper(clean(s.Rig.Name)) + ", A STAND THAT TURNS BY ITSELF")
	p.Field("turns", standTurns(s))
	p.Field("in a loop", standLoop(s))
	p.Inked(standInk(s), "seam", standSeam(s))
	p.Field("known to", standKnown(s.Seam))
	assume := spin.Assume{Capture: pl.Loop.Clock.Capture}
	if n := spinwords.Keeps(s.Seam, assume); n != "" {
		p.Field("to know more", n)
	} else if n := spinwords.Needs(s.Seam, assume); n != "" {
		p.Field("to know more", n)
	}
	p.Field("each round", spinwords.Drift(s.Seam))
	p.Field("1 % faster", spinwords.Off(s.Seam, onePerCent))
	if d := s.Rig.Regulation; d.Sign() > 0 && !d.Equal(onePerCent) {
		p.Field("its drift", fmt.Sprintf("of %s %% either way: %s", d.Mul(exact.Int(100)).Decimal(2), spinwords.Off(s.Seam, d)))
	}
	words, ink := strobeWords(pl, s.Speed.Period, s.Spin.Symmetry)
	p.Inked(ink, "each frame", words)
	p.Field("start", standStart(s))
}

func standTurns(s plan.Stand) string {
	words := fmt.Sprintf("%s seen from above, its near face to the %s; a turn in %s s ± %s s at its speed %s", s.Rig.Direction, nearFace(s.Rig.Direction),
		s.Speed.Period.Decimal(4), s.Speed.Sigma.Decimal(4), clean(s.Speed.Name))
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
	words := fmt.Sprintf("%s; it matches at %s", spinwords.Angle(s.Seam.Turns), spinwords.Angle(exact.New(s.Seam.Match, s.Spin.Symmetry)))
	if s.Spin.Symmetry == 1 {
		return words + ", " + counted(s.Seam.Match, "turn")
	}
	return fmt.Sprintf("%s, %s of %d a turn", words, counted(s.Seam.Match, "face"), s.Spin.Symmetry)
}

func standInk(s plan.Stand) string {
	switch {
	case s.Seam.Certain():
		return green
	case s.Refuses():
		return red
	}
	return yellow
}

// standSeam says how far off it is and whether that will do.
func standSeam(s plan.Stand) string {
	words, bound := spinwords.Error(s.Seam), "the bound of "+spinwords.Bound(s.Seam)
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
	words := spinwords.Known(s)
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

func standStart(s plan.Stand) string {
	if s.Rig.Phased {
		return fmt.Sprintf("in phase: frame 0 finds it at %s", unit.Format(s.Spin.Start.Float(), unit.Angle))
	}
	return spin.AnyFace + ". " + spin.MarkFace
}

// closes tells whether the loop closes on every stand.
func closes(pl *plan.Plan) bool {
	return !slices.ContainsFunc(pl.Stands, func(s plan.Stand) bool { return !s.Seam.Closes() })
}
