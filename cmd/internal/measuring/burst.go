package measuring

import (
	"fmt"
	"math"
	"math/cmplx"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/export/drive"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/vibration/sweep"
)

const (
	// offPace is the share by which the model of a board may have a burst last otherwise
	// than planned, or push otherwise than by the rule, to be made at all: beyond it lines
	// come too late for it, or its slices are as long as a stroke.
	offPace, offPush = 0.01, 0.25
)

// plans plans all that can be made, before anything moves.
func (s *shaking) plans() error {
	all, err := s.Frequencies()
	if err != nil {
		return exit.Misused("%w", err)
	}
	defer s.unjerked()()
	for _, f := range all {
		b := s.to(f)
		words := s.tooShort(b)
		if words == "" {
			if words, err = s.plan(b); err != nil {
				return err
			}
		}
		switch n := len(s.left); {
		case words == "":
			s.bursts = append(s.bursts, b)
		case n > 0 && s.left[n-1].words == words:
			s.left[n-1].to = f
		default:
			s.left = append(s.left, leftOut{f, f, words})
		}
	}
	if len(s.bursts) < sweep.FewestBursts {
		return exit.Limited("a sweep has %d frequencies or more, and %d can be made: %s", sweep.FewestBursts, len(s.bursts), s.left[0])
	}
	return nil
}

// unjerked takes the limit of jerk away until it is released: to and fro by a sine begins
// with its greatest acceleration.
func (s *shaking) unjerked() (release func()) {
	limits := s.hand.axis
	s.hand.axis.MaxJerk = 0
	return func() { s.hand.axis = limits }
}

// leftOut is a stretch of frequencies that cannot be made, and why.
type leftOut struct {
	from, to float64
	words    string
}

func (l leftOut) String() string {
	if l.from == l.to {
		return fmt.Sprintf("%.3g Hz: %s", l.from, l.words)
	}
	return fmt.Sprintf("%.3g to %.3g Hz: %s", l.from, l.to, l.words)
}

// plan plans a burst, or says why the board cannot make it.
func (s *shaking) plan(b *to) (why string, err error) {
	if b.job, err = s.hand.within(b.text); err != nil || s.rig.Controller.Kind.PlaysSteps() {
		return "", err
	}
	t := b.job.Trajectory
	if err := program.Check(t); err != nil {
		return "", err
	}
	var take segment.Take
	var made []ontime.Stretch
	for range tuned {
		take = b.take(t)
		if made, err = ontime.Played(t, take); err != nil || len(made) == 0 {
			break
		}
		b.hurry *= lasting(made) / b.seconds
	}
	if err != nil {
		return "", err
	}
	b.source = func() drive.Source { return program.New(t, take) }
	return b.is(made), nil
}

// tuned is how often the pace of the lines is set right by what the model makes of them.
const tuned = 3

func lasting(made []ontime.Stretch) float64 { return made[len(made)-1].To - made[0].From }

// burst shakes at one frequency.
func (s *shaking) burst(b *to) error {
	o := s.hand.plainly(b.job)
	o.Confirmed = true
	if o.Source = b.source; b.source != nil {
		o.Foretold = func(int64) float64 { return b.seconds }
	}
	w, err := s.hand.carry(b.job, o, []want{{drive.Ready, drive.Go}})
	if err != nil {
		return err
	}
	ran := s.span(w.in[drive.Running]) // which begins before the motion does, by what it takes to say all
	ran.From = max(ran.From, ran.To-b.periods/b.frequency)
	s.log.Bursts = append(s.log.Bursts, sweep.Burst{Span: ran, Frequency: b.frequency, Push: b.push})
	return nil
}

// tooShort is why a stroke is too short for a burst, "" where it is not.
func (s *shaking) tooShort(b *to) string {
	if b.stroke*s.perUnit() < fewestSteps-closeSteps {
		return fmt.Sprintf("within %g %s/s2 the stroke is below %d steps of the motor", s.most, s.axis.Unit(), fewestSteps)
	}
	if p := s.axis.Backlash; p != nil && b.stroke < playStrokes**p {
		return fmt.Sprintf("within %g %s/s2 the stroke is below %d times the play of %s", s.most, s.axis.Unit(), playStrokes, s.quantityOf(*p))
	}
	return ""
}

// closeSteps keeps a stroke of whole steps from being short by rounding.
const closeSteps = 1e-6

// to is a to and fro of so many periods.
type to struct {
	text      string
	frequency float64 // Hz, as it is made
	push      float64 // amplitude of its acceleration
	periods   float64
	seconds   float64
	stroke    float64
	turnsAt   float64
	hurry     float64 // times as fast as by the rule that its lines are told to be
	job       *job.Job
	source    func() drive.Source // nil where the plan itself is played
}

// to plans a frequency: a stroke of whole steps, a length of whole frames.
func (s *shaking) to(f float64) *to {
	b := &to{periods: float64(s.Periods()), turnsAt: s.turnsAt(), hurry: 1}
	frames := math.Round(b.periods / f * rungRate)
	b.seconds = frames / rungRate
	b.frequency = b.periods / b.seconds
	w := 2 * math.Pi * b.frequency
	b.stroke = math.Floor(min(s.stroke, 2*s.most/(w*w))*s.perUnit()+closeSteps) / s.perUnit()
	b.push = w * w * b.stroke / 2
	u := s.axis.Unit()
	b.text = s.hand.shotOf(rungRate, frames, fmt.Sprintf("from = \"%.6f %s\"\nto = \"%.6f %s\"\nlaw = \"harmonic\"\ncycles = %.0f", s.at, u, s.at+b.stroke, u, b.periods))
	return b
}

// take is the burst as a board makes it that turns about by itself: a line each way, told
// to go as fast as takes half a period with what the turns take.
func (b *to) take(t *trajectory.Trajectory) segment.Take {
	half := b.seconds / b.periods / 2
	near, far := []float64{t.Position(0, 0)}, []float64{t.Position(0, half)}
	nominal := exact.FromFloat(b.stroke / b.speed(b.frequency) / b.hurry)
	each := exact.FromFloat(b.seconds).Quo(exact.Int(int64(2 * b.periods)))
	k := segment.Take{Rest: near}
	for range int(b.periods) {
		for _, end := range [][]float64{far, near} {
			k.Round = append(k.Round, segment.Block{Seconds: each, Nominal: nominal, End: end})
		}
	}
	return k
}

// is takes over what the model of the board makes of the burst, or says why it is none.
func (b *to) is(made []ontime.Stretch) string {
	if len(made) == 0 {
		return "the board would not move at all"
	}
	first, lasts := made[0].From, lasting(made)
	if math.Abs(lasts-b.seconds) > offPace*b.seconds {
		return "by its model the board would not make it in its time: it takes lines no faster, or goes no slower"
	}
	f := b.periods / lasts
	w := 2 * math.Pi * f
	// What the speed of each stretch adds to the wave of acceleration: that is a pulse at
	// each change of speed (Fourier coefficients, integrated by parts).
	var wave complex128
	for _, x := range made {
		v := x.Way / (x.To - x.From)
		wave += complex(v, 0) * (cmplx.Exp(complex(0, -w*(x.From-first))) - cmplx.Exp(complex(0, -w*(x.To-first))))
	}
	push := 2 / lasts * cmplx.Abs(wave)
	rule := 4 / math.Pi * b.turnsAt * math.Sin(min(w*b.speed(f)/b.turnsAt, math.Pi/2))
	if math.Abs(push-rule) > offPush*rule {
		return "by its model the board would push otherwise than was meant: its slices are too coarse"
	}
	b.frequency, b.push = f, push
	return ""
}

// speed is that of a line each way at a frequency, where stroke/speed and what the turns
// take, speed/turnsAt, are half a period.
func (b *to) speed(f float64) float64 {
	half := 1 / f / 2
	return b.turnsAt / 2 * (half - math.Sqrt(max(0, half*half-4*b.stroke/b.turnsAt)))
}
