package spinreport

import (
	"fmt"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/turntable/spin"
)

// OnePerCent is the share by which a plain stand's speed is easily off, before
// anyone notices: the mains, the belt and the load each do that.
var OnePerCent = exact.New(1, 100)

// best tells all about the first loop of the list.
func (p *page) best() {
	l := p.d.Answer.Loops[0]
	for i, s := range l.Seams {
		title := "THE FIRST OF THEM"
		if len(l.Seams) > 1 {
			title += ": " + strings.ToUpper(s.Product.Stand.Name)
		}
		p.Section(title)
		p.seam(l, s)
		if i == 0 {
			p.Field("carriage", carriage(l))
		}
		if len(l.Seams) == 1 {
			p.Field("ever nearer", nearer(l, s))
		}
		p.Field("direction", direction(s, i == 0))
	}
}

func (p *page) seam(l spin.Loop, s spin.Seam) {
	p.Field("stand", fmt.Sprintf("%s s a turn ± %s s%s; %s",
		s.Speed.Period.Decimal(6), s.Speed.Sigma.Decimal(6), whichSpeed(s), loopTurns(s)))
	p.Toned(tone(s), "seam", Error(s)+"; asked within "+Bound(s))
	p.Field("known", Known(s))
	assume := p.d.Assume
	assume.Capture = l.Clock.Capture
	p.Field("to know it", Needs(s, assume))
	p.Field("each round", Drift(s))
	p.Field("1 % faster", Off(s, OnePerCent))
	if d := s.Product.Stand.Regulation; d.Sign() > 0 && !d.Equal(OnePerCent) {
		p.Field("its drift", fmt.Sprintf("of %s %% %s", d.Mul(exact.Int(100)).Decimal(3), Off(s, d)))
	}
	rate := l.Clock.Pictures()
	words, natural := Strobe(spin.StrobeOf(s.Speed.Period, rate, s.Product.Symmetry), s.Product.Symmetry)
	seen := report.Plain
	if !natural {
		seen = report.Fair
	}
	p.Toned(seen, "each picture", words)
}

// nearestTold is how many loops are named that come ever nearer.
const nearestTold = 6

// nearer names the loops that come nearer to a match than any shorter one.
func nearer(l spin.Loop, s spin.Seam) string {
	var out []string
	for _, n := range spin.Nearer(l.Clock, s.Product, s.Speed, nearestTold) {
		out = append(out, fmt.Sprint(n.Captured))
	}
	if len(out) == 1 && out[0] == "1" {
		return "1 captured frame: no loop of whole frames comes nearer"
	}
	return strings.Join(out, ", ") + " captured frames: each nearer to a match than any shorter loop"
}

// whichSpeed names the speed of a stand that has several.
func whichSpeed(s spin.Seam) string {
	if len(s.Product.Stand.Speeds) < 2 {
		return ""
	}
	return " at its speed " + s.Speed.Name
}

func loopTurns(s spin.Seam) string {
	return fmt.Sprintf("%s in the loop, where %s would match", Angle(s.Turns), Angle(exact.New(s.Match, s.Product.Symmetry)))
}

func tone(s spin.Seam) report.Tone {
	switch {
	case s.Certain():
		return report.Good
	case s.Closes():
		return report.Fair
	}
	return report.Poor
}

func carriage(l spin.Loop) string {
	cycles := exact.Int(l.Captured).Quo(l.Cycle)
	words := "home at the end of the loop, after going there and back once"
	if !cycles.Equal(exact.Int(1)) {
		words = fmt.Sprintf("home at the end of the loop, after going there and back %s times, %s captured frames each", cycles, l.Cycle.Decimal(3))
		if !l.Cycle.IsInt() {
			words += ", which is not whole: the times differ by a part of a frame"
		}
	}
	if l.Alike > 1 {
		words += fmt.Sprintf("; the loop holds %d rounds that look alike, so one of them would do", l.Alike)
	}
	return words
}

// direction tells how its own turning and the carriage's way add up, in full
// the first time.
func direction(s spin.Seam, full bool) string {
	words := s.Product.Stand.Direction.String() + " seen from above"
	if s.Product.Radius.Sign() > 0 {
		words += fmt.Sprintf(", its rim at %s mm/s", figures(s.Rim()))
	}
	if full {
		words += ". " + spin.Against
	}
	return words
}

// table tells of a turntable that the rig commands: there it is a division.
func (p *page) table(t Table) {
	p.Section(strings.ToUpper(t.Name) + ", A TABLE THAT THE RIG TURNS")
	p.Field("turns", fmt.Sprintf("%s a loop (%s), %s deg/s%s", turns(t.Turns), Angle(t.Turns), figures(t.Speed.Float()), steady(t)))
	p.Field("closes", "exactly, whatever the loop lasts: the rig gives it the speed that the loop needs")
	p.Field("steps", steps(t.Remainder))
	p.Field("ramps", fmt.Sprintf("spins up in %s before frame 0 and down in %s after the last", plain.Count(t.RunUp, "captured frame"), plain.Count(t.RunOut, "captured frame")))
	if t.Symmetry > 0 && t.Steady && t.Turns.Sign() != 0 {
		rate := p.d.Query.Clock.Pictures()
		words, _ := Strobe(spin.StrobeOf(t.Period.Quo(t.Turns.Abs()), rate, t.Symmetry), t.Symmetry)
		p.Field("each picture", words)
	}
	p.Field("direction", "turns below 0 go the other way. "+spin.Against)
}

// turns names how far a table goes: "1/6 of a turn", "-1 turn", "5 turns".
func turns(r exact.Rat) string {
	if n, whole := r.Int64(); whole {
		return plain.Count(n, "turn")
	}
	if exact.Int(1).Less(r.Abs()) {
		return r.String() + " turns"
	}
	return r.String() + " of a turn"
}

func steady(t Table) string {
	if t.Steady {
		return " all through"
	}
	return " on the average"
}

func steps(r spin.Remainder) string {
	if r.Part.Sign() == 0 {
		return fmt.Sprintf("%s a round, whole: every round begins on a step", r.Steps)
	}
	return fmt.Sprintf("%d and %s a round; the part is carried, so that every %s rounds are whole and ten thousand rounds are no further off than one",
		r.Whole, r.Part.Abs(), fmt.Sprint(r.Rounds))
}
