package steps

import (
	"io"
	"testing"

	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify/trace"
)

// BenchmarkPrint reports steps printed a second when they are already solved.
func BenchmarkPrint(b *testing.B) {
	tr := sample.Through(b)
	var all []trace.Step
	stream := tr.Steps(trajectory.StepOptions{Rounds: 20})
	for s, ok := stream.Next(); ok; s, ok = stream.Next() {
		all = append(all, s)
	}
	p := newPrinter(io.Discard, tr, Nanoseconds)
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		for _, s := range all {
			p.print(s)
		}
		n += len(all)
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds()/1e6, "Msteps/s")
}
