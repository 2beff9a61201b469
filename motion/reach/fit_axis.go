package reach

import (
	"fmt"
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/law"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// travelGrain is what a suggested end is rounded down to, in mm or degrees: a
// person sets a tenth, and rounding down keeps it inside the limit.
const travelGrain = 0.1

// shareOf returns the share of the motion at which the worst breach is none:
// speed, acceleration and jerk are all in proportion to the way.
func shareOf(breaches []plan.Breach) float64 {
	share := 1.0
	for _, b := range breaches {
		if b.Quantity != plan.Position {
			share = math.Min(share, b.Bound/b.Value)
		}
	}
	return share
}

// mostParts is the finest part of a turn that is offered: few products have
// more like faces than a clock has minutes.
const mostParts = 60

// turnFit offers the largest whole part of a turn that fits, since only whole
// parts close the loop of a product with as many like faces.
func turnFit(s shot.Shot, r rig.Rig, i int, breaches []plan.Breach) []Fit {
	m := s.Axes[i]
	parts := math.Ceil(1 / (math.Abs(m.Turns.Float()) * shareOf(breaches)))
	if !(parts <= mostParts) {
		return nil
	}
	m.Turns = exact.New(int64(m.Turns.Sign()), int64(parts))
	if m.Turns.Abs().Equal(s.Axes[i].Turns.Abs()) {
		return nil
	}
	return tried(r, Fit{Axis: m.Name, Kind: "travel", Shot: withMove(s, i, m),
		Text: fmt.Sprintf("turns = %q in this loop", m.Turns), Edits: []Edit{at(m, "turns", m.Turns.String())}})
}

// at is an edit of a value of an axis.
func at(m shot.AxisMove, key, text string) Edit {
	return Edit{source.Join("axis", m.Name) + "." + key, text}
}

// shorter are the shares of what speeds and places leave of a travel that are tried,
// for what depends on it in another way, such as a way back.
var shorter = []float64{1, 0.95, 0.8, 0.5, 0.25}

func travelFit(s shot.Shot, r rig.Rig, i int, breaches []plan.Breach) []Fit {
	m := s.Axes[i]
	from, to := m.From.Value.Float(), m.To.Value.Float()
	axis, _ := r.Axis(m.Name)
	end := from + (to-from)*shareOf(breaches)
	var edits []Edit
	words := ""
	if !axis.Endless {
		if in := within(axis, from); in != from {
			text := unit.Format(in, m.From.Dim)
			from, m.From = in, asWritten(text, m.From.Dim)
			edits, words = []Edit{at(m, "from", text)}, fmt.Sprintf("from = %q and ", text)
		}
		end = math.Min(math.Max(end, axis.Min), axis.Max)
	}
	most := (end - from) * math.Copysign(1, to-from)
	for _, share := range shorter {
		reach := math.Floor(share*most/travelGrain) * travelGrain
		if reach < travelGrain {
			return nil
		}
		end := math.Round((from+math.Copysign(reach, to-from))/travelGrain) * travelGrain
		text := unit.Format(end, m.To.Dim)
		fits := tried(r, Fit{Axis: m.Name, Kind: "travel", Shot: withMove(s, i, m.WithTo(end)), Edits: append(edits, at(m, "to", text)),
			Text: fmt.Sprintf("%sto = %q, a travel of %s, in this loop", words, text, unit.Format(math.Abs(end-from), m.To.Dim))})
		if len(fits) > 0 {
			return fits
		}
	}
	return nil
}

// within is the place nearest to one that is inside the travel, in what a person sets.
func within(a rig.Axis, place float64) float64 {
	switch {
	case place < a.Min:
		return math.Ceil(a.Min/travelGrain) * travelGrain
	case place > a.Max:
		return math.Floor(a.Max/travelGrain) * travelGrain
	}
	return place
}

// asWritten is a quantity as the text of a shot file has it.
func asWritten(text string, dim unit.Dimension) unit.Quantity {
	q, err := unit.ParseAs(text, dim)
	if err != nil {
		panic("reach: " + err.Error())
	}
	return q
}

func lawFits(s shot.Shot, r rig.Rig, i int) []Fit {
	var out []Fit
	m := s.Axes[i]
	if m.Tuned {
		return nil
	}
	edited := []string{"law"}
	if m.Move == shot.ThereAndBack && m.BackLaw.Name() != m.Law.Name() {
		edited = append(edited, "back-law")
	}
	for _, l := range law.All() {
		f := Fit{Axis: m.Name, Kind: "law", Shot: withMove(s, i, m.WithLaw(l)),
			Text: fmt.Sprintf("law = %q at this travel and loop", l.Name())}
		for _, key := range edited {
			f.Edits = append(f.Edits, at(m, key, l.Name()))
		}
		out = append(out, tried(r, f)...)
	}
	return out
}

func withMove(s shot.Shot, i int, m shot.AxisMove) shot.Shot {
	axes := make([]shot.AxisMove, len(s.Axes))
	copy(axes, s.Axes)
	axes[i] = m
	s.Axes = axes
	return s
}
