package law

import "testing"

// sink keeps results alive, so that the compiler cannot drop the work.
var sink float64

func BenchmarkFastest(b *testing.B) {
	for _, c := range []struct {
		name string
		move move
	}{
		{"all-limits", move{240, 60, 120, 600}},
		{"no-acceleration-limit", move{1000, 40, 1000, 1000}},
		{"no-speed-limit", move{43.9261, 278.43, 533.707, 35904.2}},
		{"jerk-only", move{0.0864946, 37.0139, 114.872, 265.578}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink += c.move.fastest().T
			}
		})
	}
}

func BenchmarkProfileAt(b *testing.B) {
	p := Fastest(240, 60, 120, 600)
	t := 0.
	for b.Loop() {
		if t += 0.001; t > p.T {
			t = 0
		}
		pos, _, _, _ := p.At(t)
		sink += pos
	}
}

func BenchmarkAt(b *testing.B) {
	for _, l := range All() {
		b.Run(l.Name(), func(b *testing.B) {
			b.ReportAllocs()
			u := 0.
			for b.Loop() {
				if u += 0.001; u > 1 {
					u = 0
				}
				sink += l.At(u).S
			}
		})
	}
}
