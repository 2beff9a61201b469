package drive

import (
	"fmt"
	"math"
	"slices"
	"time"

	"seamrail/motion/controller/program"
)

const (
	// longestTry is the longest dwell that is tried, in s: the operator waits for it.
	longestTry = 1.0
	// briefest is a dwell, in s, shorter than any grain that a rest would show.
	briefest = 0.001
	// graced is how much longer or shorter a dwell may last than the rig file has
	// it, in s, besides what the wire leaves in doubt: what a board does between two
	// turns of its main loop, a few times over. Grains that would show are of
	// several ms.
	graced = 0.002
)

// tryDwells has the controller dwell, once, as the rests of the take will have it,
// and compares how long that lasts with what the take was made for. Nothing moves
// meanwhile. What a rest is wrong by each round would add up, and a plan cannot know
// it of a board that it has not met.
func (t *lineController) tryDwells(told []float64) error {
	if t.tried {
		return nil
	}
	for _, sec := range tries(told) {
		lasts, doubt, err := t.standing(sec)
		if err != nil {
			return err
		}
		switch {
		case lasts == 0:
			t.Observer.Say(fmt.Sprintf("a dwell of %.1f ms could not be timed, since the wire was not silent: whether it lasts as the rig file says is not known", sec*1000))
		case math.Abs(lasts-t.lasts(sec)) > doubt:
			return t.dwellsOtherwise(sec, lasts, doubt)
		}
	}
	t.tried = true
	return nil
}

// goes is how often a dwell must last otherwise to be believed: this computer may be
// late to hear of one.
const goes = 3

// standing is how long a dwell lasts, tried until it is as it should be, or has not been
// in all goes.
func (t *lineController) standing(sec float64) (lasts, doubt float64, err error) {
	for range goes {
		lasts, doubt, err = t.timed(sec)
		if err != nil || math.Abs(lasts-t.lasts(sec)) <= doubt {
			break
		}
	}
	return lasts, doubt, err
}

// tries are the dwells to try, of those that the take has: the shortest, the middle
// one and the longest that is no trial of patience.
func tries(told []float64) []float64 {
	all := slices.Clone(told)
	slices.Sort(all)
	all = slices.DeleteFunc(slices.Compact(all), func(sec float64) bool { return sec > longestTry })
	if len(all) < 3 {
		return all
	}
	return []float64{all[0], all[len(all)/2], all[len(all)-1]}
}

// timed has it dwell and returns how long that lasted, and how far that may be out;
// 0 where something else was on the way. It is timed against a dwell of nothing,
// whose line is as long: the wire may be slower than the rig file says.
func (t *lineController) timed(sec float64) (lasts, doubt float64, err error) {
	defer func(every time.Duration) { t.every = every }(t.every)
	t.every = 0
	var took [2]time.Duration
	for i, told := range []float64{0, sec} {
		text := fmt.Sprintf("G4 P%.6f", told)
		if err := t.quieten(); err != nil {
			return 0, 0, err
		}
		quiet := t.silentWay()
		t.put(text, patience+seconds(2*t.lasts(sec)), nil)
		t.flight[len(t.flight)-1].quiet = quiet
		t.stood = 0
		if err := t.await(text); err != nil {
			return 0, 0, err
		}
		if took[i] = t.stood; took[i] == 0 {
			return 0, 0, nil
		}
	}
	return (took[1] - took[0]).Seconds(), graced + t.way.jitter().Seconds() + worstClock*sec, nil
}

// dwellsOtherwise says what its dwells are like, and what the rig file should say
// of them, if that is what was seen.
func (t *lineController) dwellsOtherwise(sec, lasts, doubt float64) error {
	grain, _, err := t.timed(briefest)
	if err != nil {
		return err
	}
	fit := "No grain explains that: look whether something else keeps the board busy"
	if grain = wholeMillis(grain); math.Abs(inGrains(sec, grain)-lasts) <= doubt {
		fit = fmt.Sprintf("Say dwell-grain = %q in the rig file and plan again", grainWords(grain))
	}
	return failed(Mismatched, "a dwell of %.1f ms lasts %.1f ms here, where the rig file's dwell-grain makes it %.1f: each rest of the take would be as much out of step with the frames. %s",
		sec*1000, lasts*1000, t.lasts(sec)*1000, fit)
}

// wholeMillis is a grain in whole ms; one that no rest would show is none.
func wholeMillis(grain float64) float64 {
	if grain < briefest+graced {
		return 0
	}
	return seconds(grain).Round(time.Millisecond).Seconds()
}

func grainWords(grain float64) string {
	if grain == 0 {
		return "none"
	}
	return fmt.Sprintf("%.0f ms", grain*1000)
}

// dwells tells whether a line lets time pass without motion.
func dwells(l program.Line) bool { return !l.Moves && dwell(l.Text) > 0 }

// ends returns by which sec of the take a line is answered that is on time: when
// its motion begins, at the latest, or at the end of its dwell, which lasts
// whole grains and begins when the motors have settled.
func (t *lineController) ends(l *program.Line) float64 {
	switch {
	case l.Text == syncLine:
		return l.Start + t.controller.IdleDelay
	case !dwells(*l):
		return l.Start
	}
	told := dwell(l.Text)
	return l.End + t.lasts(told) - told + t.controller.IdleDelay
}

// lasts returns how many s a dwell lasts that is told to last so many.
func (j *job) lasts(told float64) float64 { return inGrains(told, j.controller.DwellGrain) }

// inGrains is the least number of whole grains that is no shorter; of no grain, as
// it is.
func inGrains(told, grain float64) float64 {
	if grain > 0 {
		return grain * math.Ceil(told/grain-grainHair)
	}
	return told
}

// grainHair is what a time may be above a whole number of grains, in grains, and
// count as that number: a word has six decimals and a board single precision.
const grainHair = 1e-5
