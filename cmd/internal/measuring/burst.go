package measuring

import (
	"fmt"
	"math"
	"math/cmplx"

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
	offPace, offPush = 0.02, 0.25
)

// burst shakes at one frequency, unless the board cannot.
func (s *shaking) burst(f float64) error {
	b := s.to(f)
	if words := s.tooShort(b); words != "" {
		s.left = append(s.left, fmt.Sprintf("%.3g Hz: %s", f, words))
		return nil
	}
	j, err := s.hand.within(b.text)
	if err != nil {
		return err
	}
	o := s.hand.plainly(j)
	o.Confirmed = true
	if !s.rig.Controller.Kind.PlaysSteps() {
		take := b.take(j.Trajectory)
		made, err := ontime.Played(j.Trajectory, take)
		if err != nil {
			return err
		}
		if words := b.is(made); words != "" {
			s.left = append(s.left, fmt.Sprintf("%.3g Hz: %s", f, words))
			return nil
		}
		if err := program.Check(j.Trajectory); err != nil {
			return err
		}
		o.Source = func() drive.Source { return program.New(j.Trajectory, take) }
		o.Foretold = func(int64) float64 { return b.seconds }
	}
	w, err := s.hand.carry(j, o, []want{{drive.Ready, drive.Go}})
	if err != nil {
		return err
	}
	s.log.Bursts = append(s.log.Bursts, sweep.Burst{Span: s.span(w.in[drive.Running]), Frequency: b.frequency, Push: b.push})
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
}

// to plans a frequency: a stroke of whole steps, a length of whole frames.
func (s *shaking) to(f float64) *to {
	w := 2 * math.Pi * f
	b := &to{periods: float64(s.Periods()), turnsAt: s.turnsAt()}
	b.stroke = math.Floor(min(s.stroke, 2*s.most/(w*w))*s.perUnit()+closeSteps) / s.perUnit()
	frames := math.Round(b.periods / f * rungRate)
	b.seconds = frames / rungRate
	b.frequency = b.periods / b.seconds
	w = 2 * math.Pi * b.frequency
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
	nominal := exact.FromFloat(b.stroke / b.speed(b.frequency))
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
	first, lasts := made[0].From, made[len(made)-1].To-made[0].From
	if math.Abs(lasts-b.seconds) > offPace*b.seconds {
		return fmt.Sprintf("the board would make it in %.3g s and not in %.3g s: it takes lines no faster, or steps no finer", lasts, b.seconds)
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
		return fmt.Sprintf("the board would push by %.3g where %.3g a second squared was meant: its slices are too coarse", push, rule)
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
