package measuring

import (
	"math"

	"seamrail/motion/base/unit"
	"seamrail/motion/calibrate"
	"seamrail/motion/plan/stepwise"
)

// ownSpeeds are those to which an axis goes in single lines: a board that plans for itself
// speeds up at its own setting in every line, so that what it is set to is tried by how
// fast it comes to be. Gentle moves have shown the first.
func (t *trial) ownSpeeds() []float64 {
	top := min(t.fast(), math.Sqrt(t.cap*(t.to-t.from)))
	return calibrate.Rungs(min(stepwise.GentleSpeed(t.axis), top), top)
}

func (t *trial) toldSpeed(v float64) string {
	dim := unit.Speed
	if !isLinear(t.axis) {
		dim = unit.AngularSpeed
	}
	return unit.Format(math.Round(v*100)/100, dim)
}

// byItself tries what the board is set to, where takes have held and lost nothing.
func (t *trial) byItself(f *Found, held float64) (now, lost float64, err error) {
	own := t.told(t.cap)
	if t.rig.Controller.SettingsLine == "" {
		own += " (as the file has it; it prints none)"
	}
	t.Ask.say("  at the board's own %s, in single lines:", own)
	fast, failed, err := t.up(f, t.speeds, t.toldSpeed, func(v float64) (is, off float64, by string, err error) {
		off, by, err = t.inLines(v)
		return v, off, by, err
	})
	switch {
	case err != nil:
		return held, 0, err
	case failed > 0:
		f.tell("the board", "speeds up at its own %s in every line, and loses steps so from %s on: set it lower", own, t.toldSpeed(failed))
		return held, t.cap, nil
	}
	f.tell("the board", "speeds up at its own %s in every line, which held up to %s", own, t.toldSpeed(fast))
	return t.cap, 0, nil
}

// inLines goes over the stretch in one line at a speed, out and, after a slow way out,
// back, and looks for lost steps after each.
func (t *trial) inLines(v float64) (lost float64, by string, err error) {
	for _, way := range [][2]float64{{t.from, t.to}, {t.to, t.from}} {
		if err := t.hand.to(way[0]); err != nil {
			return 0, "", err
		}
		gentle := t.hand.axis.MaxSpeed
		t.hand.axis.MaxSpeed = v / stepwise.GentleShare
		err := t.hand.to(way[1])
		t.hand.axis.MaxSpeed = gentle
		if err != nil {
			return 0, "", err
		}
		if lost, by, err = t.check(); err != nil || lost != 0 {
			return lost, by, err
		}
	}
	return lost, by, nil
}
