package virtual_test

import (
	"fmt"
	"time"

	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
)

// A rail of 300 mm moves 100 mm, at 100 mm/s and 1000 mm/s². By these it would take
// 1.1 s; the step timer makes intervals of whole ticks, each of them longer.
func Example() {
	c := rig.Buffered.Defaults()
	c.ResetsOnOpen, c.HomeLine = false, ""
	r := virtual.New(virtual.Of(rig.Rig{
		Axes: []rig.Axis{{Name: "rail", Letter: "X", Max: 300, MaxSpeed: 200, MaxAcc: 1000,
			StepsPerUnit: exact.Int(80)}},
		Controller: c,
	}))
	r.Write([]byte("G94 G1 X100 F6000\n"))
	r.Advance(2 * time.Second)
	fmt.Printf("%q\n", r.Read(nil))
	d := r.Record()
	first, last := d.Span(0), d.Span(d.Len()-1)
	fmt.Printf("%.3f s to %v mm\n", last.End-first.Start, last.To[0])
	// Output:
	// "ok\r\n"
	// 1.101 s to 100 mm
}
