package measuring

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/motion/base/unit"
	"seamrail/motion/calibrate"
	"seamrail/motion/law"
)

// rungRate is at what rate trials are planned, in frames a second: a move of a third of a
// second then has its peak to a hundredth, and a board that plays steps by the
// millisecond has ticks enough in a frame.
const rungRate = 250

// firstShare of what is allowed, or of what the file has if that is less, is tried first:
// whoever allows more than the file says does not know that it can be done.
const firstShare = 0.25

// trial is a ladder of one quantity.
type trial struct {
	*Walk
	what     string // "speed"
	dim      unit.Dimension
	limit    float64 // of the rig file
	cap      float64 // of the board itself, +Inf where it says none
	kept     func(held float64) float64
	from, to float64
	place    float64 // at which it is checked, come to upward
	ladder   []float64
	speeds   []float64 // to which it goes at the board's own acceleration; nil = it has none
	shot     func(t *trial, peak float64) (way, frames float64)
	peak     func(way, seconds float64) float64
	check    func() (lost float64, by string, err error)
}

// speed finds the greatest speed.
func (w *Walk) speed() (*Found, error) {
	a := w.axis
	t := &trial{Walk: w, what: "speed", dim: unit.Speed, limit: a.MaxSpeed, cap: w.boardSpeed(), kept: calibrate.KeptSpeed, shot: speedRung,
		peak: func(way, s float64) float64 { return peaks().V * way / s }}
	if !isLinear(a) {
		t.dim = unit.AngularSpeed
	}
	return t.run()
}

// acceleration finds the greatest acceleration.
func (w *Walk) acceleration() (*Found, error) {
	a := w.axis
	t := &trial{Walk: w, what: "acceleration", dim: unit.Acceleration, limit: a.MaxAcc, cap: math.Inf(1), kept: calibrate.KeptAcceleration, shot: accelerationRung,
		peak: func(way, s float64) float64 { return peaks().A * way / (s * s) }}
	if s := a.Settings; s.Acceleration > 0 && !a.Assumed.Acceleration {
		t.cap = s.Acceleration
	}
	if !isLinear(a) {
		t.dim = unit.AngularAcceleration
	}
	return t.run()
}

// boardSpeed is what the board caps the axis at.
func (w *Walk) boardSpeed() float64 {
	most := math.Inf(1)
	if s := w.axis.Settings; s.Speed > 0 && !w.axis.Assumed.Speed {
		most = s.Speed
	}
	if r := w.rig.Controller.StepRate; r > 0 {
		most = min(most, r/w.axis.StepsPerUnit.Float())
	}
	return most
}

// speedRung goes over the whole stretch.
func speedRung(t *trial, peak float64) (way, frames float64) {
	way = t.to - t.from
	return way, math.Ceil(peaks().V * way / peak * rungRate)
}

// trialShare of the greatest speed is what trials of acceleration go up to: that speed
// has been tried, or is the file's, and is not what is in question.
const trialShare = 0.8

// fast is the speed that trials of acceleration come to.
func (t *trial) fast() float64 { return trialShare * min(t.axis.MaxSpeed, t.boardSpeed()) }

// accelerationRung goes as far as it takes to come to a speed.
func accelerationRung(t *trial, peak float64) (way, frames float64) {
	v := t.fast()
	way = min(v*v*peaks().A/(peaks().V*peaks().V)/peak, t.to-t.from)
	return way, math.Ceil(math.Sqrt(peaks().A*way/peak) * rungRate)
}

// peaks are those of the law of a trial, which is the one of least jerk: boards that plan
// for themselves follow none as near to their own limits.
func peaks() law.Peaks { return law.MinimumJerk().Peaks() }

// rungs are the shots of a trial, and the peak that they have. One is quick on the way
// out, the other on the way back: what a motor loses both ways alike would not be seen.
func (t *trial) rungs(peak float64) (texts []string, is float64) {
	way, frames := t.shot(t, peak)
	slowly := 2 * frames
	u := t.axis.Unit()
	for _, out := range []float64{frames, slowly} {
		texts = append(texts, t.hand.shotOf(rungRate, frames+slowly, fmt.Sprintf("from = \"%.3f %s\"\nto = \"%.3f %s\"\nlaw = \"3-4-5\"\nout-share = \"%.0f/%.0f\"",
			t.from, u, t.from+way, u, out, frames+slowly)))
	}
	return texts, t.peak(way, frames/rungRate)
}

func (t *trial) told(v float64) string { return unit.Format(math.Round(v*100)/100, t.dim) }

// run asks what is allowed, goes up the ladder, and says what is kept.
func (t *trial) run() (*Found, error) {
	top, err := t.allowed()
	if err != nil {
		return nil, err
	}
	f := &Found{Unit: t.dim.Unit()}
	if top > t.cap {
		f.tell("the board", "caps it at %s itself: nothing beyond that is tried. To try more, set the board and the settings of the file to that, measure, and set both back where it loses steps: this program changes no setting of a board, which would keep it when the program is killed", t.told(t.cap))
		top = t.cap
	}
	t.hand.axis.MaxJerk = 0
	if t.what == "speed" {
		t.hand.axis.MaxSpeed = max(top*(1+rounding), t.axis.MaxSpeed)
	} else {
		t.hand.axis.MaxAcc = max(top*(1+rounding), t.axis.MaxAcc)
	}
	if err := t.begin(); err != nil {
		return nil, err
	}
	t.ladder = calibrate.Rungs(firstShare*min(top, t.limit), top)
	if t.what == "acceleration" && t.cap <= top && !t.rig.Controller.Kind.PlaysSteps() {
		t.speeds = t.ownSpeeds()
	}
	if err := t.checked(f); err != nil {
		var doubt doubtError
		if errors.As(err, &doubt) {
			return doubtful(doubt.error), nil
		}
		return nil, err
	}
	return f, t.climb(f)
}

// rounding lets a peak be what was allowed to its last digit.
const rounding = 1e-6

func (t *trial) allowed() (top float64, err error) {
	comes := ""
	if t.what == "acceleration" {
		comes = " It comes to " + t.toldSpeed(t.fast()) + " where the way is long enough."
	}
	q, err := t.Ask.quantity(question{key: "most", usual: t.told(t.limit), picture: trialPicture, words: fmt.Sprintf(
		"Up to which %s may %s be tried? The rig file allows %s."+comes+" Its limit of jerk does not hold in these trials. A motor that loses steps growls and stops short: nothing breaks, but what stands on it may fall. Take the camera off, put its weight on.",
		t.what, t.axis.Name, t.told(t.limit))}, 0, tenfold*t.limit, t.dim)
	if err != nil {
		return 0, err
	}
	top = q.Float()
	if top <= 0 {
		return 0, exit.Misused("nothing was allowed, and nothing has moved")
	}
	low, high := t.ends()
	middle := (low + high) / 2
	if t.from, err = t.placeOf("from", "Between which places? A motor that stalls on the way out comes back as far beyond the first: as much way must be free before it. From", middle, low+lead, high-2*lead); err != nil {
		return 0, err
	}
	most := min(high, 2*t.from-low)
	t.to, err = t.placeOf("to", "to", min(most, high-t.inset()), t.from+2*lead, most)
	t.place = t.from + lead
	return top, err
}

// tenfold of the file's limit is a slip of the hand.
const tenfold = 10

// climb goes up the ladder, and says what came of it.
func (t *trial) climb(f *Found) error {
	held, lost, err := t.up(f, t.ladder, t.told, func(peak float64) (is, off float64, by string, err error) {
		texts, is := t.rungs(peak)
		off, by, err = t.try(texts)
		return is, off, by, err
	})
	if err == nil && lost == 0 && len(t.speeds) > 0 {
		held, lost, err = t.byItself(f, held)
	}
	if err == nil {
		t.outcome(f, held, lost)
	}
	return err
}

// up tries rung after rung until one loses steps, or all have held.
func (t *trial) up(f *Found, ladder []float64, told func(float64) string, try func(float64) (is, off float64, by string, err error)) (held, lost float64, err error) {
	for _, rung := range ladder {
		is, off, by, err := try(rung)
		switch {
		case err != nil && exit.Code(err) == exit.Limits:
			f.tell("not tried", "%s in a take: %v; boards that plan for themselves want their own limits well above a take's", told(is), err)
			return held, 0, nil
		case err != nil:
			return held, 0, err
		case off != 0:
			much := "steps"
			if !math.IsNaN(off) {
				much = t.quantityOf(roundTo(math.Abs(off), 3))
			}
			t.Ask.say("  %-12s lost %s, by %s", told(is), much, by)
			return held, is, nil
		}
		t.Ask.say("  %-12s held, by %s", told(is), by)
		held = is
	}
	return held, 0, nil
}

// try runs the shots of a trial and looks for lost steps after each.
func (t *trial) try(texts []string) (lost float64, by string, err error) {
	for _, text := range texts {
		if err := t.hand.to(t.from); err != nil {
			return 0, "", err
		}
		if err := t.hand.take(text); err != nil {
			return 0, "", err
		}
		if lost, by, err = t.check(); err != nil || lost != 0 {
			return lost, by, err
		}
	}
	return lost, by, nil
}

// outcome says what is kept of what was held.
func (t *trial) outcome(f *Found, held, lost float64) {
	keep := t.kept(held)
	f.Value = calibrate.Estimate{Value: keep}
	switch {
	case held == 0 && lost > 0:
		f.doubt("steps were lost at the least that was tried, %s. Something rubs, the current is too low, or the load too great: nothing is changed.", t.told(lost))
		return
	case held == 0:
		f.doubt("nothing could be tried; nothing is changed")
		return
	case lost > 0:
		f.tell("steps lost", "at %s; held at %s", t.told(lost), t.told(held))
		if !t.hand.opened {
			f.tell("where it is", "is not what it counts: home it, or place it by hand, before it moves again")
		}
		f.tell("kept", "%s, which is %.0f %% of what held: motors weaken as they warm, and loads differ", t.told(keep), 100*t.kept(1))
	case keep <= t.limit:
		f.tell("held", "up to %s, the most that was tried", t.told(held))
		f.tell("so", "nothing speaks against the %s of the file; a reserve beyond them was not shown: a trial up to %s would", t.told(t.limit), t.told(t.limit/t.kept(1)))
		return
	default:
		f.tell("held", "up to %s, the most that was tried", t.told(held))
		f.tell("kept", "%s, which is %.0f %% of that", t.told(keep), 100*t.kept(1))
	}
	f.line(t.path(t.what), t.told(t.limit), unit.Format(wholly(keep), t.dim))
}

// wholly rounds a limit down to three figures.
func wholly(v float64) float64 {
	grain := math.Pow(10, math.Floor(math.Log10(v))-2)
	return math.Floor(v/grain+rounding) * grain
}

// doubtError ends a measurement, and no more.
type doubtError struct{ error }

// checked sets up how lost steps are seen: by the time to the switch, or by a mark.
func (t *trial) checked(f *Found) error {
	usual := "mark"
	if t.hand.switched() {
		usual = "switch"
	}
	by, err := t.Ask.ask(question{key: "check", usual: usual, words: "How are lost steps to be seen: by the switch, or on a mark?", check: func(text string) error {
		switch {
		case text == "mark", text == "switch" && t.hand.switched():
			return nil
		case text == "switch":
			return fmt.Errorf("%s has no switch to home on, as the rig file has it", t.axis.Name)
		}
		return fmt.Errorf("switch or mark")
	}})
	if err != nil {
		return err
	}
	if by == "mark" {
		return t.byMark()
	}
	return t.bySwitch(f)
}

// homings is from how many places the switch is looked for first: fewer, and what they
// scatter by is so unsure that no loss would be seen for it.
const homings = 8

// looksEach is how often a trial of one speed or acceleration looks for lost steps.
const looksEach = 2

// bySwitch learns how long the switch takes from known places.
func (t *trial) bySwitch(f *Found) error {
	var seen []calibrate.Homing
	for i := range homings {
		at := t.place + (t.to-t.place)*float64(i)/(homings-1)
		s, err := t.homeFrom(at)
		if err != nil {
			return err
		}
		seen = append(seen, s)
	}
	times, err := calibrate.TimeTheSwitch(seen, looksEach*(len(t.ladder)+len(t.speeds)))
	if err != nil {
		return doubtError{err}
	}
	sees := times.Sees(t.place)
	f.tell("sees", "a loss of %s and more, by the time that the switch takes", t.quantityOf(roundTo(sees, 2)))
	if least := t.leastLoss(); least > 0 && sees > least {
		return doubtError{fmt.Errorf("the switch tells a place to %s only, and a stepping motor may lose as little as %s, four full steps: check on a mark", t.quantityOf(roundTo(sees, 2)), t.quantityOf(roundTo(least, 2)))}
	}
	t.check = func() (float64, string, error) {
		s, err := t.homeFrom(t.place)
		if err != nil {
			return 0, "", err
		}
		lost, bound := times.Look(s)
		if math.Abs(lost.Value) <= bound {
			return 0, fmt.Sprintf("the switch (%+.2g, give or take %.2g %s)", lost.Value, bound, t.axis.Unit()), nil
		}
		return lost.Value, "the switch", nil
	}
	return nil
}

func (t *trial) homeFrom(at float64) (calibrate.Homing, error) {
	if err := t.hand.from(-lead, at); err != nil {
		return calibrate.Homing{}, err
	}
	d, err := t.hand.homes()
	return calibrate.Homing{Place: at, Seconds: d.Seconds()}, err
}

// leastLoss is what four full steps move, 0 where the file does not say: a stepping motor
// that falls out of step falls in again a whole cycle of its phases on (textbooks,
// from memory: its torque is about a sine of four full steps).
func (t *trial) leastLoss() float64 {
	const cycle = 4
	if d, how := t.drive(); !how.Steps {
		return cycle * d.Microsteps / t.axis.StepsPerUnit.Float()
	}
	return 0
}

// byMark has the person look.
func (t *trial) byMark() error {
	if err := t.hand.from(-lead, t.place); err != nil {
		return err
	}
	if yes, err := t.set("Draw a line at the pointer now, as fine as you can. Is it there?", markPicture); err != nil || !yes {
		return cmp.Or(err, error(doubtError{errors.New("without a mark lost steps are not seen")}))
	}
	words, seen := "Is the pointer on its mark?", eye
	if least := t.leastLoss(); least > 0 && least < eye {
		words = fmt.Sprintf("A stepping motor may lose as little as %s, four full steps, which no eye sees: read it with a gauge. %s", t.quantityOf(roundTo(least, 2)), words)
		seen = usualGauge
	}
	was := 0.0
	if t.hand.made != nil {
		was = t.hand.truly()
	}
	t.check = func() (lost float64, by string, err error) {
		if err := t.hand.from(-lead, t.place); err != nil {
			return 0, "", err
		}
		q := question{key: "on-mark", words: words + " y, n, or by how much it is off, such as 0.5 " + t.axis.Unit(), check: func(text string) (err error) {
			lost, err = t.offMark(text)
			return err
		}}
		if t.hand.made != nil {
			q.auto = func() string { return t.quantityOf(calibrate.ToDivision(t.hand.truly()-was, seen)) }
		}
		if _, err = t.Ask.ask(q); err == nil && lost != 0 {
			t.hand.opened = false // where it stands is not what is counted
		}
		return lost, "the mark", err
	}
	return nil
}

// eye is what an eye sees beside a pencil line, in mm or degrees.
const eye = 0.1

func (t *trial) offMark(text string) (float64, error) {
	switch strings.ToLower(text) {
	case "y":
		return 0, nil
	case "n":
		return math.NaN(), nil
	}
	q, err := unit.ParseAs(text, t.Walk.dim())
	return q.Float(), err
}

func roundTo(v float64, figures int) float64 {
	if v == 0 {
		return 0
	}
	grain := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-float64(figures-1))
	return math.Round(v/grain) * grain
}
