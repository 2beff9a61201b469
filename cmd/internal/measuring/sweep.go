package measuring

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/spec/rig"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/sweep"
)

const (
	// usualLow and usualHigh are the band, in Hz: cameras on tabletop rails swing at some
	// hertz, and what swings faster moves too little to be seen.
	usualLow, usualHigh = 3, 16
	// usualDamping is that of a camera on a rail (common practice: 1 to 5 %), rather less, since a swing
	// that is damped more has built up all the more.
	usualDamping = 0.02
	// usualStroke is how far it goes to and fro, in mm or degrees: at 2 % what swings goes
	// 25 times as far beside it.
	usualStroke = 0.4
	// usualPush is the greatest acceleration, in mm/s2 or deg/s2: a tenth of gravity.
	usualPush = 1000
	// playStrokes is how many times the play a stroke must be: the rail then still goes
	// over 92 % of what it would without (the fundamental of a to and fro that stands
	// still for the play at each turn is less by cos(pi/2 play/stroke)).
	playStrokes = 4
	// fewestSteps of the motor make a to and fro and not a jerk.
	fewestSteps = 4
	// maxStroke, in mm or degrees, is beyond shaking.
	maxStroke = 5
	// settles is how many time constants of the swing it is let ring beside a mark, so that
	// the next begins in silence: three leave a twentieth.
	settles = 3
	// silence is before the sweep, in s, while the phone records and nothing moves.
	silence = 3
)

// markWays are how far the moves go by which a record is laid beside the sweep, and whose
// swing is let ring: of other lengths, since a start and a stop may cancel what they shake.
var markWays = []float64{10, 33}

// shaking is a sweep as the person allows it.
type shaking struct {
	*Walk
	sweep.Asked
	at, stroke, most float64
	zero             time.Time
	log              sweep.Log
	bursts           []*to
	left             []leftOut
}

// swept asks what is allowed, shakes, and reads the phone's record of it.
func (w *Walk) swept() (*Found, error) {
	s := &shaking{Walk: w}
	if w.hand.made != nil {
		if _, err := w.software(); err != nil {
			return nil, err
		}
	}
	if err := s.asked(); err != nil {
		return nil, err
	}
	if err := w.begin(); err != nil {
		return nil, err
	}
	f := &Found{Unit: "Hz"}
	t := &trial{Walk: w, from: s.at, to: s.at + markWays[1], place: s.at}
	if err := t.checked(f); err != nil {
		return orDoubt(err)
	}
	if err := w.recording(); err != nil {
		return nil, err
	}
	since, err := s.shake()
	if err != nil {
		if len(s.log.Bursts) >= sweep.FewestBursts { // what was swept until then can be read
			err = errors.Join(err, s.keep())
		}
		return nil, err
	}
	if off, by, err := t.check(); err != nil || off != 0 {
		if err == nil {
			f.doubt("steps were lost in the sweep, by %s: it did not come back to where it began, and nothing is made of it", by)
		}
		return f, err
	}
	f.tell("back", "where it began, by the check for lost steps")
	for _, l := range s.left {
		f.tell("left out", "%s", l)
	}
	if err := s.keep(); err != nil {
		return nil, err
	}
	var record ringdown.Record
	if w.hand.made != nil {
		if record, err = w.felt(since); err == nil && w.Sweep != "" {
			err = keepRecord(recordBeside(w.Sweep), record)
		}
	} else {
		record, err = w.recorded("Stop the record and copy it to this computer. What is the file called?")
	}
	if err != nil {
		return nil, err
	}
	return f, w.resonances(f, s.log, record)
}

// orDoubt is a measurement that ends in a doubt, or an error that is none.
func orDoubt(err error) (*Found, error) {
	if d, ok := err.(doubtError); ok {
		return doubtful(d.error), nil
	}
	return nil, err
}

// asked asks for what is allowed.
func (s *shaking) asked() error {
	u, dim, limit := s.axis.Unit(), unit.Acceleration, s.axis.MaxAcc
	if s.axis.Kind == rig.Rotary {
		dim = unit.AngularAcceleration
	}
	low, high := s.ends()
	var err error
	if s.at, err = s.placeOf("at", fmt.Sprintf("It is shaken to and fro, a fraction of a %s, at one frequency after the other, and goes up to %g %s upward before and after. From which place?", u, markWays[1], u), (low+high)/2, low+lead, high-markWays[1]-lead); err != nil {
		return err
	}
	for _, q := range []struct {
		key, words  string
		usual       float64
		from, up    float64
		into        *float64
		dim, beside unit.Dimension
	}{
		{"low", "From which frequency on?", usualLow, 0.5, 100, &s.Low, unit.Frequency, unit.Frequency},
		{"high", "Up to which? A resonance near the end of the band is not told from none.", usualHigh, 0.5, 100, &s.High, unit.Frequency, unit.Frequency},
	} {
		got, err := s.Ask.quantity(question{key: q.key, words: q.words, usual: unit.Format(q.usual, q.dim)}, q.from, q.up, q.dim)
		if err != nil {
			return err
		}
		*q.into = got.Float()
	}
	damping, err := s.Ask.quantity(question{key: "damping", usual: fmt.Sprintf("%g %%", 100*usualDamping), words: "What damping is to be expected? Steps of frequency and times follow from it: less damping takes longer. 2 % will do where nobody knows."}, 0.002, 0.3, unit.Number)
	if err != nil {
		return err
	}
	s.Damping = damping.Float()
	stroke, err := s.Ask.quantity(question{key: "stroke", usual: s.quantityOf(s.usualStroke()), words: fmt.Sprintf("How far may it go to and fro at the most? What swings with that damping may go %.0f times as far beside it: nothing on it may be loose, and nothing near it in the way.", s.grows())}, fewestSteps/s.perUnit(), maxStroke, s.dim())
	if err != nil {
		return err
	}
	s.stroke = stroke.Float()
	most, err := s.Ask.quantity(question{key: "most", usual: unit.Format(min(usualPush, limit), dim), words: fmt.Sprintf("Up to which acceleration? The rig file allows %s; at a frequency where that is too much the stroke is shorter.%s", unit.Format(limit, dim), s.turns(dim))}, 0, limit, dim)
	if err != nil {
		return err
	}
	if s.most = most.Float(); s.most <= 0 {
		return exit.Misused("nothing was allowed, and nothing has moved")
	}
	if err := s.plans(); err != nil {
		return err
	}
	sec := 0.0
	for _, b := range s.bursts {
		sec += b.seconds
	}
	s.Ask.say("  %d frequencies, %d periods each: about %s, with a pause between two.", len(s.bursts), s.Periods(), plain.Count(int(math.Ceil(sec/60)), "minute"))
	for _, l := range s.left {
		s.Ask.fold("  left out: " + l.String())
	}
	return nil
}

func (s *shaking) perUnit() float64 { return s.axis.StepsPerUnit.Float() }

// usualStroke is as much as the play takes of it to be of no account.
func (s *shaking) usualStroke() float64 {
	play := 0.0
	if s.axis.Backlash != nil {
		play = *s.axis.Backlash
	}
	return max(usualStroke, playStrokes*play)
}

// grows is how many times as far as the stroke a load of the damping that is expected
// swings in the end, from its one side to its other.
func (s *shaking) grows() float64 { return 1 / (2 * s.Damping) }

// turns says how hard a board turns about, where it does so by its own setting.
func (s *shaking) turns(dim unit.Dimension) string {
	if s.rig.Controller.Kind.PlaysSteps() {
		return ""
	}
	return fmt.Sprintf(" A board that plans for itself turns about at its own setting, %s, for some thousandths of a second, as in any line.", unit.Format(s.turnsAt(), dim))
}

// turnsAt is the acceleration that the board has set for the axis.
func (s *shaking) turnsAt() float64 {
	if a := s.axis.Settings.Acceleration; a > 0 {
		return a
	}
	return s.axis.MaxAcc
}

// recording asks whether the phone records, where there is one.
func (w *Walk) recording() error {
	if w.hand.made != nil {
		return nil
	}
	yes, err := w.Ask.yes(question{key: "recording", picture: swingPicture, words: "Fix the phone to what swings and start its record of acceleration. Does it record?"})
	if err == nil && !yes {
		err = exit.Misused("nothing was shaken")
	}
	return err
}

// shake is the sweep. It returns since when a phone of software feels it.
func (s *shaking) shake() (since float64, err error) {
	s.log = sweep.Log{Axis: s.axis.Name, Unit: s.axis.Unit(), Damping: s.Damping}
	s.zero = s.hand.world.Now()
	if s.hand.made != nil {
		since = s.hand.made.Now().Seconds()
	}
	if err := s.hand.take(s.hand.stays(s.at, silence)); err != nil {
		return since, err
	}
	if err := s.marks(); err != nil {
		return since, err
	}
	for i, b := range s.bursts {
		if err := s.burst(b); err != nil {
			return since, err
		}
		if i%tellEvery == 0 || i == len(s.bursts)-1 {
			s.Ask.say("  %d of %d: %.3g Hz", i+1, len(s.bursts), b.frequency)
		}
	}
	if err := s.rings(s.at); err != nil {
		return since, err
	}
	return since, s.marks()
}

// tellEvery so many frequencies it is said where the sweep is.
const tellEvery = 10

// marks are the moves before and after a sweep.
func (s *shaking) marks() error {
	for _, way := range markWays {
		for _, at := range []float64{s.at + way, s.at} {
			went, err := s.hand.goes(at)
			if err != nil {
				return err
			}
			s.log.Marks = append(s.log.Marks, s.span(went))
			if err := s.rings(at); err != nil {
				return err
			}
		}
	}
	return nil
}

// rings lets what swings come to rest, for whole grains of any board's dwells.
func (s *shaking) rings(at float64) error {
	const grain = 0.5 // s
	return s.hand.take(s.hand.stays(at, grain*math.Ceil(max(ringing, settles/(2*math.Pi*s.Low*s.Damping))/grain)))
}

func (s *shaking) span(p span) sweep.Span {
	return sweep.Span{From: p.from.Sub(s.zero).Seconds(), To: p.to.Sub(s.zero).Seconds()}
}

// keep writes when what was done, to be read with a record later.
func (s *shaking) keep() error {
	name := s.Sweep
	switch {
	case name == "" && s.hand.made != nil:
		return nil // a rig of software is swept again in a moment
	case name == "":
		name = strings.TrimSuffix(s.File, ".toml") + "-" + s.axis.Name + "-sweep.csv"
	}
	if err := atomicfile.Write(name, atomicfile.Bytes([]byte(s.log.Text()))); err != nil {
		return err
	}
	s.Ask.fold("When it did what is in " + name + ": with --sweep and that, and --record and the phone's file, it can be read again.")
	return nil
}

// recordBeside is what the record of a phone of software is called.
func recordBeside(name string) string { return strings.TrimSuffix(name, ".csv") + "-record.csv" }

func keepRecord(name string, r ringdown.Record) error {
	var b strings.Builder
	b.WriteString("Time (s),Acceleration (mm/s2)\n")
	for i, t := range r.Times {
		fmt.Fprintf(&b, "%.4f,%g\n", t, r.Series[0][i])
	}
	return atomicfile.Write(name, atomicfile.Bytes([]byte(b.String())))
}

// readLater reads a sweep that was made earlier.
func (w *Walk) readLater() (*Found, error) {
	text, err := textfile.Record(w.Sweep)
	if err != nil {
		return nil, err
	}
	l, err := sweep.Parse(text)
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", w.Sweep, err)
	case l.Axis != w.axis.Name:
		return nil, exit.Misused("%s is a sweep of %s, and this is %s", w.Sweep, l.Axis, w.axis.Name)
	}
	record, err := w.recorded("What is the phone's file of that sweep called?")
	if err != nil {
		return nil, err
	}
	f := &Found{Unit: "Hz"}
	return f, w.resonances(f, l, record)
}
