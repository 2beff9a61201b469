package gcode

import (
	"fmt"

	"seamrail/motion/controller/program"
	"seamrail/motion/plan/trajectory"
)

// Opening is how the program opens.
func (opt Options) Opening() program.Opening {
	return program.Opening{Stop: !opt.NoStop, CountIn: float64(opt.CountIn), Mark: opt.Mark.Program()}
}

// start says how the take is started, and together with what. A click track
// begins with the first beat of its count-in, and motion with the last.
func (opt Options) start(t *trajectory.Trajectory) []string {
	c := t.Rig().Controller
	pause := opt.Opening().Pause(c.DwellGrain)
	var out []string
	since := "cycle start"
	if opt.NoStop {
		since = "it is there"
		out = append(out, "start: it does not wait at the start of the take: the rig goes on by itself")
	} else {
		out = append(out, "start: at the start of the take it waits, M0, until you press cycle start; stand clear before you do",
			"start: controllers differ in M0: most wait for a button or a resume, a few go on at once or end there; find out with the motors off")
		if c.IdleDelay > 0 {
			out = append(out, "start: while it waits its motors have no current: see that nothing slides")
		}
	}
	if opt.CountIn > 0 && !opt.NoStop {
		out = append(out, fmt.Sprintf("start: for a click track with a count-in of %d s, start the track and press cycle start at the same moment", opt.CountIn))
	}
	text := fmt.Sprintf("start: motion begins %s s after %s, frame 0 is at %s s", decimals(pause), since, decimals(pause+runUp(t)))
	if late := pause - float64(opt.CountIn); opt.CountIn > 0 && late > 0 {
		text += fmt.Sprintf("; that is %s s after the count-in, as it dwells in steps of %s s", decimals(late), decimals(c.DwellGrain))
	}
	return append(append(out, text), opt.marked(t)...)
}

// marked says what the sync mark is, and how frame 0 follows from it.
func (opt Options) marked(t *trajectory.Trajectory) []string {
	m := opt.Mark
	if m == nil {
		return nil
	}
	out := []string{"sync mark: " + m.What(), "sync mark: " + m.Where(opt.Rounds), "sync mark: " + m.Follows()}
	if m.Program() == (program.Mark{}) {
		out = append(out, "sync mark: it is not in this program: "+m.NotTold())
	}
	return out
}

func runUp(t *trajectory.Trajectory) float64 {
	up, _ := t.RampTimes()
	return up.Float()
}

func decimals(s float64) string { return fmt.Sprintf("%.3f", s) }
