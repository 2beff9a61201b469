package drive

import (
	"math"
	"strconv"
	"strings"
	"time"

	"seamrail/motion/law"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/spec/rig"
)

const (
	secondsMinute = 60
	// homeSpeed is how slowly an axis may look for its switch, in mm/s or degrees a
	// second, all the way there and once more (common practice is three to ten times
	// as fast there, and a short way slowly).
	homeSpeed = 5
	// homePause is what an axis may take besides, in s: to pull off its switch, wait
	// and look again.
	homePause = 5
	// syncLine is answered when all motion before it has ended: G4 waits for
	// that, and then for its own time (NISTIR 6556, section 3.5.4, says that it
	// dwells; that answers wait for it is measured, and common practice). A dwell
	// of nothing adds 0.03 ms; one of anything would add a grain of 50 ms on
	// boards that count dwells in those (measured).
	syncLine = "G4 P0"
)

// What a gentle move is, as for the moves between frames.
const gentleShare = stepwise.GentleShare

func gentle(a rig.Axis, distance float64) law.Profile { return stepwise.Gentle(a, distance) }

func acceleration(a rig.Axis) float64 { return stepwise.Acceleration(a) }

// number writes x with the decimals of a word, never "-0".
func (t *lineController) number(x float64) string {
	s := strconv.FormatFloat(x, 'f', t.controller.Decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// glide moves one axis and waits until it rests.
func (t *lineController) glide(axis int, to float64, relative bool) error {
	a := t.axes[axis]
	distance, mode := to, "G21 G91"
	if !relative {
		distance, mode = to-t.at[axis], "G21 G90"
	}
	move := "G1 " + a.Letter + t.number(to) + " F" + t.pace(a, a.MaxSpeed*gentleShare)
	bound := append([]float64(nil), t.at...)
	if !relative {
		bound[axis] = to
	}
	if err := t.goes([]string{mode, "G94"}, move, []string{"G90"}, seconds(gentle(a, distance).T), bound); err != nil {
		return err
	}
	if t.shift != nil && !relative {
		if err := t.fresh(); err != nil {
			return err
		}
	}
	return t.glided(axis, to, relative)
}

// goes has one line move axes to where they are bound, with lines before and after that set
// how it is read, and waits until they rest.
func (t *lineController) goes(before []string, move string, after []string, takes time.Duration, bound []float64) error {
	t.bound = append(t.bound[:0], t.at...)
	for _, line := range before {
		if err := t.prompt(line); err != nil {
			return err
		}
	}
	copy(t.bound, bound)
	if err := t.exchange(move, patience+takes); err != nil {
		return err
	}
	t.setOut = t.way.said()
	for _, line := range after {
		if err := t.prompt(line); err != nil {
			return err
		}
	}
	return t.exchange(syncLine, patience+takes)
}

// together moves axes to their places in one line, and waits until they rest. Without a feed
// for that they go one after the other.
func (t *lineController) together(to []float64) error {
	by, move := make([]float64, len(to)), "G1"
	for i, a := range t.axes {
		if by[i] = to[i] - t.at[i]; by[i] != 0 {
			move += " " + a.Letter + t.number(to[i])
		}
	}
	mode, feed, ok := stepwise.FeedWords(t.controller, t.axes, by)
	for i := 0; !ok && i < len(to); i++ {
		if err := t.glide(i, to[i], false); err != nil || i == len(to)-1 {
			return err
		}
	}
	takes := seconds(stepwise.Together(t.axes, by).T)
	if err := t.goes([]string{"G21 G90", mode}, move+" "+feed, []string{"G94"}, takes, to); err != nil {
		return err
	}
	if t.shift != nil {
		if err := t.fresh(); err != nil {
			return err
		}
	}
	return t.arrived(to)
}

// arrived takes in that axes have gone to their places together.
func (e *engine) arrived(to []float64) error {
	for i := range to {
		if err := e.glided(i, to[i], false); err != nil {
			return err
		}
	}
	return nil
}

// departed is when the line of the last gentle move was answered: at rest it is carried out at
// once.
func (t *lineController) departed() span { return t.setOut }

// glided takes in that a gentle move has ended, unless it is reported to have ended
// elsewhere.
func (e *engine) glided(axis int, to float64, relative bool) error {
	if relative {
		return nil
	}
	if at, ok := e.m.position(); ok && math.Abs(at[axis]-to) > e.mayRest(axis) {
		a := e.axes[axis]
		return failed(Astray, "axis %s was sent to %.3f %s and is reported at %.3f", a.Name, to, a.Unit(), at[axis])
	}
	e.at[axis] = to
	return nil
}

// place makes the controller count from here. What it reports may be counted
// from elsewhere: how far off is measured.
func (t *lineController) place(at []float64) error {
	line := "G92"
	for i, a := range t.axes {
		line += " " + a.Letter + t.number(at[i])
	}
	if err := t.prompt(line); err != nil {
		return err
	}
	t.shift = nil
	if err := t.fresh(); err != nil {
		return err
	}
	t.recount(t.at, at)
	if r, ok := t.reading(); ok {
		t.shift = make([]float64, len(r))
		for i := range r {
			t.shift[i] = r[i] - at[i]
		}
	}
	return t.inRoom(at)
}

// fresh waits for a report that was asked for from now on. A controller
// without them needs none.
func (t *lineController) fresh() error {
	if t.controller.Status == 0 {
		return nil
	}
	from := t.now
	t.askStatus()
	return t.within(patience, func() bool { return t.reportedSince(from) }, noStatus)
}

// reportedSince tells whether a report has come that was asked for from then on.
func (t *lineController) reportedSince(from time.Time) bool {
	return t.statusAt.After(from) && !t.before.Before(from)
}

func (t *lineController) locked() bool { return t.alarmed != "" }

// unlock clears an alarm.
func (t *lineController) unlock() error {
	if t.controller.UnlockLine == "" {
		return failed(Alarmed, "%s, and the rig file has no line that unlocks it; switch it off and on", t.alarmed)
	}
	if err := t.exchange(t.controller.UnlockLine, patience); err != nil {
		return err
	}
	t.alarmed = ""
	return t.fresh()
}
