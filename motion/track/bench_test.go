package track_test

import (
	"testing"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

var sink float64

func benchTrack(b *testing.B, name string) *track.Track {
	return must(b)(track.ThereAndBack(exact.New(6, 5), track.ThereAndBackSpec{
		From: 40, To: 100, Out: named(b, name), Cycles: 1, DwellFar: exact.New(1, 10),
	}))
}

func benchKeys(b *testing.B, n int64) track.KeysSpec {
	var spec track.KeysSpec
	for i := range n {
		spec.Keys = append(spec.Keys, track.Key{Time: exact.New(6*i, n), Pos: float64(i * i % 17)})
	}
	return spec
}

func BenchmarkAt(b *testing.B) {
	for _, name := range law.Names() {
		b.Run(name, func(b *testing.B) {
			tr := benchTrack(b, name)
			for i := 0; b.Loop(); i++ {
				sink = tr.At(float64(i%1000) * 0.0012).Pos
			}
		})
	}
}

func BenchmarkCursor(b *testing.B) {
	for _, name := range law.Names() {
		b.Run(name, func(b *testing.B) {
			tr := benchTrack(b, name)
			s := tr.Spans()[0]
			c, step := tr.Cursor(s), (s.To-s.From)/1000
			for i := 0; b.Loop(); i++ {
				sink, _, _ = c.At(float64(i%1000) * step)
			}
		})
	}
}

func BenchmarkKeysAt(b *testing.B) {
	tr := must(b)(track.Keys(exact.Int(6), benchKeys(b, 12)))
	for i := 0; b.Loop(); i++ {
		sink = tr.At(float64(i%1000) * 0.006).Pos
	}
}

func BenchmarkExtremes(b *testing.B) {
	b.Run("there-and-back", func(b *testing.B) {
		tr := benchTrack(b, "3-4-5")
		for b.Loop() {
			sink = tr.Extremes().Speed.Value
		}
	})
	b.Run("twelve keys", func(b *testing.B) {
		tr := must(b)(track.Keys(exact.Int(6), benchKeys(b, 12)))
		for b.Loop() {
			sink = tr.Extremes().Speed.Value
		}
	})
}

func BenchmarkKeys(b *testing.B) {
	for name, n := range map[string]int64{"12": 12, "256": 256} {
		b.Run(name, func(b *testing.B) {
			spec := benchKeys(b, n)
			for b.Loop() {
				if _, err := track.Keys(exact.Int(6), spec); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
