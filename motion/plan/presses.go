package plan

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// checkRounds is how many rounds are timed to see whether the rig does as planned: two
// presses of a tenth of a second are then a few thousandths of a round.
const checkRounds = 20

// Presses are what a person does on a rig that is set and started by hand, in its order;
// none for one that is driven.
func (p *Plan) Presses() []string {
	if p.Set == nil {
		return nil
	}
	s, b := *p.Set, p.Rig.Controller.Buttons
	trips := p.eachWay
	if !s.Pressed {
		trips = func() string { return tripsToSet(b.Trips, p.Rounds) }
	}
	out := []string{
		"Know its own stop and what is said below of what moves: no program can stop it.",
		p.endsToSet() + " " + timesToSet(s) + " " + trips(),
		startWords(b),
		fmt.Sprintf("Frame 0 is where it sets out: a count and a press alone know that to %s either way, so look for it in the picture. %s",
			plain.Count(int64(math.Ceil(p.StartSpread())), "captured frame"), p.startSeam()),
	}
	if !s.Pressed {
		out = append(out, fmt.Sprintf("To check: time %d rounds with a stopwatch. The plan takes %s for them.", checkRounds, rounded(s.Round().Mul(exact.Int(checkRounds)))))
	}
	return out
}

// endsToSet says where each axis is put for both ends.
func (p *Plan) endsToSet() string {
	var near, far []string
	for i := range p.Axes {
		a := &p.Axes[i]
		e, goes := a.Move.Does.(move.Ended)
		if !goes {
			continue
		}
		from, to := e.Ends()
		near, far = append(near, a.Rig.Name+" at "+from.String()), append(far, a.Rig.Name+" at "+to.String())
	}
	return fmt.Sprintf("Set one end with %s, where it sets out, and the other with %s.", strings.Join(near, ", "), strings.Join(far, ", "))
}

func timesToSet(s Set) string {
	words := "Set the time of a way to " + secs(s.Way)
	if !s.Pressed {
		words += ", and the pause at the ends to " + secs(s.Pause)
	}
	return words + "."
}

// tripsToSet says how the rounds of a take are had.
func tripsToSet(t rig.Trips, rounds int) string {
	n := plain.Count(rounds, "round trip")
	if t.Counts.Has(exact.Int(int64(rounds))) {
		return "Set " + n + " after one press."
	}
	return "Let it go there and back without an end, and stop it after " + n + "."
}

// eachWay says when each way is pressed for.
func (p *Plan) eachWay() string {
	s := *p.Set
	words := "Press for the way back as it arrives"
	if s.RestFar.Sign() > 0 {
		words = "Press for the way back " + rounded(s.RestFar) + " after it has arrived"
	}
	if p.Rounds > 1 {
		words += fmt.Sprintf("; for each of the %d rounds press anew, not before it has rested %s", p.Rounds, rounded(s.RestNear))
	}
	return words + "."
}

func startWords(b rig.Buttons) string {
	words := "Start the camera, then count and press, with a click track on its long tone"
	if b.Lag.Sign() > 0 {
		words += "; it sets out " + secs(b.Lag) + " after the press, so press that much before the count is over"
	}
	return words + "."
}

// startSeam says what becomes of the seam where frame 0 is taken as early as that. In its
// first round the rig comes from rest, and the last frame finds it not yet home; a round that
// follows another is as it was a round before, wherever it is cut.
func (p *Plan) startSeam() string {
	if !p.Set.Pressed && shot.KeptRound(int64(p.Rounds)) > 0 {
		return "The round to keep follows another: a frame 0 that is off shifts the loop, and opens no seam."
	}
	r := p.Set.later(0)
	early := p.StartSpread() / p.Loop.Clock.Capture.Float()
	share, _ := r.at(r.lasts() - math.Min(early, r.lasts()/2))
	if share == 0 {
		return "Its rest at the near end hides as much at the seam."
	}
	words := ""
	for _, a := range p.Axes {
		if travel := a.Extremes.Max.Value - a.Extremes.Min.Value; travel > 0 {
			words = and(words, fmt.Sprintf("%.3g %s on %s", share*travel, a.Rig.Unit(), a.Rig.Name))
		}
	}
	return "Taken so much early, the seam jumps by " + words + "."
}

// rounded prints a time as a stopwatch shows it.
func rounded(v exact.Rat) string {
	return unit.Format(math.Round(v.Float()*100)/100, unit.Time)
}

// StartSpread is how many captured frames the instant at which a rig sets out that is
// started by hand may be from where it was counted to: two standard uncertainties of the
// press and of what the rig takes to answer it.
func (p *Plan) StartSpread() float64 {
	b := p.Rig.Controller.Buttons
	return spin.Coverage * math.Hypot(b.Press.Float(), b.LagSpread.Float()) * p.Loop.Clock.Capture.Float()
}
