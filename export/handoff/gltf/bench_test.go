package gltf_test

import (
	"io"
	"testing"

	"seamrail/export/handoff/gltf"
	"seamrail/export/header"
	"seamrail/motion/plan/sample"
	"seamrail/motion/verify"
)

// The loop has 2400 frames.
func BenchmarkWrite(b *testing.B) {
	tr, s := sample.Long(b), lanternScene()
	v := verify.Check(tr)
	for b.Loop() {
		if err := gltf.Write(io.Discard, tr, header.Of(tr.Plan(), v), s); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(tr.Captured())*float64(b.N)/b.Elapsed().Seconds(), "frames/s")
}
