package report

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/spin"
	"seamrail/motion/unit"
)

// stand tells of a display stand: how it turns and how the loop suits it.
func (p *page) stand(pl *plan.Plan, s plan.Stand) {
	p.Section(strings.ToUpper(clean(s.Rig.Name)) + ", A STAND THAT TURNS BY ITSELF")
	p.Field("turns", standTurns(s))
	p.Field("in a loop", standLoop(s))
	p.Inked(standInk(s), "seam", standSeam(s))
	p.Field("known to", standKnown(s))
	if n := standNeeds(pl, s); n != "" {
		p.Field("to know more", n)
	}
	p.Field("each round", standDrift(s))
	p.Field("1 % faster", standOff(s, exact.New(1, 100)))
	if d := s.Rig.Regulation; d.Sign() > 0 && !d.Equal(exact.New(1, 100)) {
		p.Field("its drift", fmt.Sprintf("of %s %% either way: %s", d.Mul(exact.Int(100)).Decimal(2), standOff(s, d)))
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
	words := fmt.Sprintf("%s; it matches at %s", angle(s.Seam.Turns), angle(exact.New(s.Seam.Match, s.Spin.Symmetry)))
	if s.Spin.Symmetry == 1 {
		return words + ", " + counted(s.Seam.Match, "turn")
	}
	return fmt.Sprintf("%s, %s of %d a turn", words, counted(s.Seam.Match, "face"), s.Spin.Symmetry)
}

func standInk(s plan.Stand) string {
	switch {
	case certain(s.Seam):
		return green
	case s.Refuses():
		return red
	}
	return yellow
}

// standSeam says how far off it is in every measure there is, and whether that
// will do.
func standSeam(s plan.Stand) string {
	bound := "the bound of " + boundWords(s.Seam)
	if s.Seam.Error.Sign() == 0 {
		return "closes exactly, within " + bound
	}
	side := "past"
	if s.Seam.Error.Sign() < 0 {
		side = "short of"
	}
	words := fmt.Sprintf("%s %s its match: %s", angle(s.Seam.Error.Abs()), side, standMeasures(s.Seam))
	switch {
	case s.Seam.Closes():
		return words + "; within " + bound
	case s.Refuses():
		return words + "; beyond " + bound + ", which the shot states"
	}
	return words + "; beyond " + bound + ": the picture jumps at every repeat"
}

func standKnown(s plan.Stand) string {
	words := fmt.Sprintf("± %s, two standard uncertainties, as its period is known", angle(s.Seam.Spread.Mul(exact.Int(spin.Coverage))))
	switch {
	case certain(s.Seam):
		return words + ": it closes for sure"
	case s.Seam.Sure():
		return words + ": it closes for sure while its speed does not drift"
	case s.Seam.Closes():
		return words + ": it may not close after all; measure more"
	}
	return words
}

// certain tells whether a loop closes whatever the period and the drift may be.
func certain(s spin.Seam) bool {
	drift := s.Off(s.Product.Stand.Regulation)
	return !s.Bound.Less(s.Error.Abs().Add(s.Spread.Mul(exact.Int(spin.Coverage))).Add(drift))
}

// standNeeds says how much must be measured to know the seam to its bound.
func standNeeds(pl *plan.Plan, s plan.Stand) string {
	if !s.Seam.Bound.Less(s.Seam.Spread.Mul(exact.Int(spin.Coverage))) {
		return ""
	}
	assume := spin.Assume{Capture: pl.Loop.Clock.Capture}
	var ways []string
	for _, way := range []struct {
		sigma float64
		how   string
	}{{assume.ByStopwatch(), "by stopwatch"}, {assume.ByPicture(), "in the picture"}} {
		if n, ok := s.Seam.TurnsToTime(way.sigma); ok {
			ways = append(ways, fmt.Sprintf("%s %s (%s)", counted(n.Turns, "turn"), way.how, patience(n.Seconds)))
		}
	}
	if len(ways) == 0 {
		return ""
	}
	return "measure " + strings.Join(ways, " or ") + " at a stretch"
}

// patience prints a time that a person waits.
func patience(sec float64) string {
	if sec < 120 {
		return fmt.Sprintf("%.0f s", sec)
	}
	return fmt.Sprintf("%.0f min", math.Ceil(sec/60))
}

// standDrift says what becomes of the error when rounds follow each other.
func standDrift(s plan.Stand) string {
	n, ever := s.Seam.Shows()
	if !ever {
		return "ends on its match, however many are filmed"
	}
	words := fmt.Sprintf("filmed on, it is %s further from its match", angle(s.Seam.Error.Abs()))
	if n > 1 {
		words += fmt.Sprintf(", past the bound after %s", counted(n, "round"))
	}
	return words + "; the clip shows the same jump at every repeat and no more"
}

func standOff(s plan.Stand, share exact.Rat) string {
	off := s.Seam.Off(share)
	words := "moves the seam by " + angle(off)
	if s.Spin.Radius.Sign() > 0 {
		mm := s.Seam.Product.Chord(off)
		words += ", " + figures(mm) + " mm at the rim"
		if s.Spin.Scale.Sign() > 0 {
			words += ", " + figures(mm*s.Spin.Scale.Float()) + " px"
		}
	}
	return words
}

func standStart(s plan.Stand) string {
	if s.Rig.Phased {
		return fmt.Sprintf("in phase: frame 0 finds it at %s", unit.Format(s.Spin.Start.Float(), unit.Angle))
	}
	return spin.AnyFace + ". " + spin.MarkFace
}

// openStands names the stands that the loop does not close on.
func openStands(pl *plan.Plan) []string {
	var out []string
	for _, s := range pl.Stands {
		if !s.Seam.Closes() {
			out = append(out, clean(s.Rig.Name))
		}
	}
	return out
}
