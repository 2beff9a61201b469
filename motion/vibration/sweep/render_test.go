package sweep_test

import (
	"cmp"
	"math"
	"math/rand"
	"slices"

	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
	"seamrail/motion/vibration/sweep"
)

// kick is a change of the foot's speed.
type kick struct{ at, by float64 }

// body is what swings on the foot: a spring, and its share of where the phone is.
type body struct {
	spring spring.Spring
	share  float64
}

// scene is a sweep as it truly went, and the phone that recorded it.
type scene struct {
	asked  sweep.Asked
	stroke float64
	bodies []body
	noise  float64 // mm/s2
	rate   float64 // samples/s
	uneven float64 // share of a step by which samples come early or late
	late   float64 // s after the sweep's clock that the record begins
	ppm    float64
	counts float64 // what the phone makes of a mm/s2
	cut    float64 // s at the end that are not recorded
}

func usual() scene {
	return scene{asked: sweep.Asked{Low: 3, High: 16, Damping: 0.03}, stroke: 0.4, bodies: []body{{spring.Spring{Frequency: 5.4, Damping: 0.025}, 1}},
		noise: 15, rate: 200, uneven: 0.2, late: -1.3, ppm: 60, counts: 1e-3}
}

const (
	markSpeed = 40.  // mm/s
	markRamp  = 0.02 // s
	pause     = 0.4  // s between bursts
)

// driven is what was done: the log of it, and each kick that it gave the foot.
func (s scene) driven() (l sweep.Log, kicks []kick, end float64) {
	l = sweep.Log{Axis: "rail", Unit: "mm", Damping: s.asked.Damping}
	t := 2.0
	marks := func() {
		for _, way := range []float64{10, -10, 33, -33} {
			v, lasts := math.Copysign(markSpeed, way), math.Abs(way)/markSpeed
			const parts = 10
			for i := range parts {
				off := (float64(i) + 0.5) / parts * markRamp
				kicks = append(kicks, kick{t + off, v / parts}, kick{t + lasts + off, -v / parts})
			}
			l.Marks = append(l.Marks, sweep.Span{From: t, To: t + lasts + markRamp})
			t += lasts + markRamp + 3
		}
	}
	marks()
	all, err := s.asked.Frequencies()
	if err != nil {
		panic(err)
	}
	for _, f := range all {
		n := s.asked.Periods()
		v := 2 * s.stroke * f
		push := 4 / math.Pi * 2 * math.Pi * f * v // of a wave of speed that is square
		l.Bursts = append(l.Bursts, sweep.Burst{Span: sweep.Span{From: t, To: t + float64(n)/f}, Frequency: f, Push: push})
		kicks = append(kicks, kick{t, v})
		for i := 1; i < 2*n; i++ {
			kicks = append(kicks, kick{t + float64(i)/f/2, 2 * v * float64(1-2*(i%2))})
		}
		kicks = append(kicks, kick{t + float64(n)/f, v})
		t += float64(n)/f + pause
	}
	t += 3
	marks()
	slices.SortFunc(kicks, func(a, b kick) int { return cmp.Compare(a.at, b.at) })
	return l, kicks, t
}

// record is what the phone has: the acceleration of the load, from kick to kick by the
// closed form of each free swing.
func (s scene) record(r *rand.Rand) (sweep.Log, ringdown.Record) {
	l, kicks, end := s.driven()
	out := ringdown.Record{Names: []string{"along"}, Series: make([][]float64, 1)}
	states, now, next := make([]spring.State, len(s.bodies)), math.Min(s.late, 0), 0
	to := func(t float64) {
		for i, b := range s.bodies {
			states[i] = b.spring.Free(t - now).Times(states[i])
		}
		now = t
	}
	for n := 0; ; n++ {
		t := s.late + (float64(n)+s.uneven*(r.Float64()-0.5))/s.rate
		if t > end-s.cut {
			return l, out
		}
		for next < len(kicks) && kicks[next].at <= t {
			to(max(kicks[next].at, now))
			for i := range states {
				states[i].Vel -= kicks[next].by
			}
			next++
		}
		if t < now {
			continue
		}
		to(t)
		acc := s.noise * r.NormFloat64()
		for i, b := range s.bodies {
			w := b.spring.Omega()
			acc -= b.share * (w*w*states[i].Pos + 2*b.spring.Damping*w*states[i].Vel)
		}
		out.Times = append(out.Times, (t-s.late)*(1+s.ppm*1e-6))
		out.Series[0] = append(out.Series[0], s.counts*acc)
	}
}
