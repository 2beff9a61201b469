package mintime

import "testing"

// sink keeps results alive, so that the compiler cannot drop the work.
var sink float64

// benchLegs take each branch of the solver.
var benchLegs = []struct {
	name string
	leg  Leg
}{
	{"rest/all-limits", Leg{Distance: 240, Speed: 60, Acc: 120, Jerk: 600}},
	{"rest/no-acceleration-limit", Leg{Distance: 1000, Speed: 40, Acc: 1000, Jerk: 1000}},
	{"rest/no-speed-limit", Leg{Distance: 43.9261, Speed: 278.43, Acc: 533.707, Jerk: 35904.2}},
	{"rest/jerk-only", Leg{Distance: 0.0864946, Speed: 37.0139, Acc: 114.872, Jerk: 265.578}},
	{"ends/cruise", Leg{Distance: 100, Start: 50, End: 50, Speed: 100, Acc: 500, Jerk: 5000}},
	{"ends/run-up", Leg{Distance: 10, End: 100, Speed: 100, Acc: 500, Jerk: 5000}},
	{"ends/direct", Leg{Distance: 15, End: 100, Speed: 100, Acc: 500, Jerk: 5000}},
	{"ends/overshoot", Leg{Distance: 2, Start: 80, Speed: 100, Acc: 500, Jerk: 5000}},
	{"ends/quartic-near", Leg{Distance: 10, Start: 50, End: 30, Speed: 100, Acc: 500, Jerk: 2000}},
	{"ends/quartic-mixed", Leg{Distance: 12, Start: 70, End: 10, Speed: 100, Acc: 500, Jerk: 5000}},
	{"ends/turnaround", Leg{Start: 50, End: -50, Speed: 100, Acc: 500, Jerk: 5000}},
}

func BenchmarkFastest(b *testing.B) {
	for _, c := range benchLegs {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				m, err := c.leg.Fastest()
				if err != nil {
					b.Fatal(err)
				}
				sink += m.seconds
			}
		})
	}
}

func BenchmarkAt(b *testing.B) {
	m, err := Leg{Distance: 100, Start: 50, End: 30, Speed: 100, Acc: 500, Jerk: 5000}.Fastest()
	if err != nil {
		b.Fatal(err)
	}
	t := 0.
	for b.Loop() {
		if t += 0.001; t > m.seconds {
			t = 0
		}
		pos, _, _, _ := m.At(t)
		sink += pos
	}
}

func BenchmarkStretch(b *testing.B) {
	l := Leg{Distance: 100, Start: 50, End: 30, Speed: 100, Acc: 500, Jerk: 5000}
	for name, aim := range map[string]Aim{"least-acceleration": MinAcc, "least-jerk": MinJerk} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				m, err := l.Stretch(1.7, aim)
				if err != nil {
					b.Fatal(err)
				}
				sink += m.seconds
			}
		})
	}
}
