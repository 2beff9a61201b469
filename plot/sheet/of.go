package sheet

import (
	"fmt"

	"seamrail/motion/scene"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// usualTakes is how many takes have boxes: as many as lie side by side.
const usualTakes = 8

// Of is the page of a planned shot and what hands do in it. What it takes more
// than the plan to know is the caller's: Above or NotAbove, Stills, Cautions
// and Foot.
func Of(p *plan.Plan, s shot.Shot, c cue.Sheet) Page {
	t := trajectory.New(p)
	var scene scene.Scene
	if s.Scene != nil {
		scene = *s.Scene
	}
	step := markStep(p.Loop.Screen)
	return Page{
		Title:     p.Title,
		Facts:     append([]string{pace(p), take(p)}, stands(p)...),
		Groups:    []Group{camera(p, scene), lens(scene), standing(scene), product(scene)},
		Lamps:     lamps(scene),
		Dimmers:   dimmers(p, scene, step),
		Presses:   numbered(p.Presses()),
		Tape:      tape(t),
		Marks:     marks(t, step),
		Moves:     moves(t),
		Cues:      cues(c),
		Positions: positions(t, step),
		Takes:     usualTakes,
	}
}

// pressesName is over what is set and pressed on a rig that is started by hand.
const pressesName = "Set and press by hand"

// numbered puts the number of each before it: they are done in this order.
func numbered(steps []string) []string {
	out := make([]string, len(steps))
	for i, s := range steps {
		out[i] = fmt.Sprintf("%d. %s", i+1, s)
	}
	return out
}

// pace says how long the loop is, on screen and at the rig.
func pace(p *plan.Plan) string {
	l := p.Loop
	if p.ByFrame != nil {
		return fmt.Sprintf("Loop: %s on screen, %s at %s frames/s, taken one by one.",
			plain.Count(l.Screen, "frame"), seconds(l.OnScreen().Float()), clock.RateText(l.Clock.Playback))
	}
	text := fmt.Sprintf("Loop: %s on screen, %s at %s frames/s. The camera takes %s at %s frames/s: %s of real time",
		plain.Count(l.Screen, "frame"), seconds(l.OnScreen().Float()), clock.RateText(l.Clock.Playback),
		plain.Count(l.Captured, "frame"), clock.RateText(l.Clock.Capture), seconds(l.Real().Float()))
	if p.Back > 0 {
		text += fmt.Sprintf(", and %s on the way back", plain.Count(p.Back, "frame"))
	}
	return text + "."
}

// take says what is recorded, and which part of it is the loop.
func take(p *plan.Plan) string {
	c, kept := p.Loop.Clock, int64(p.Rounds)/2
	all := p.RunUp + int64(p.Rounds)*p.RoundFrames() + p.RunOut
	first := p.RunUp + kept*p.RoundFrames()
	text := fmt.Sprintf("Take: %d rounds one after the other", p.Rounds)
	if p.Rounds == 1 {
		text = "Take: 1 round"
	}
	if p.RunUp > 0 {
		text += fmt.Sprintf(", %s of run-up before", plain.Count(p.RunUp, "frame"))
	}
	if p.RunOut > 0 {
		text += fmt.Sprintf(", %s of run-out after", plain.Count(p.RunOut, "frame"))
	}
	how := seconds(c.FrameTime(all).Float())
	if p.ByFrame != nil {
		all -= int64(p.Rounds) * p.Back // on the way back nothing is exposed
		first = kept * p.Loop.Captured
		how = "one by one"
	}
	return fmt.Sprintf("%s: %s, %s. Keep round %d, recorded frames %d to %d, counted from 0 where motion begins. Rig: %s.",
		text, plain.Count(all, "frame"), how, kept+1, first, first+p.Loop.Captured-1, p.Rig.Name)
}

// stands say how each display stand is set: nothing commands it.
func stands(p *plan.Plan) []string {
	var out []string
	for _, s := range p.Stands {
		name := s.Rig.Name
		if s.Speed.Name != "" {
			name += ", set to " + s.Speed.Name
		}
		way := "anticlockwise"
		if s.Rate.Sign() < 0 {
			way = "clockwise"
		}
		out = append(out, fmt.Sprintf("Stand %s: a turn in %s, %s from above. Let it turn before the take begins.",
			name, seconds(s.Speed.Period.Float()), way))
	}
	return out
}

// seconds prints a time to the millisecond: finer than a stopwatch.
func seconds(v float64) string { return fmt.Sprintf("%.3f s", v) }

// known prints a number with its unit, or leaves a blank.
func known(n scene.Number, d unit.Dimension) string {
	if !n.Given {
		return ""
	}
	return unit.Format(n.Value, d)
}
