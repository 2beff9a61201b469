package virtual_test

import (
	"testing"
	"time"

	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// Whatever comes over the wire, the board neither panics nor hangs, and it
// answers every line that is not lost.
func FuzzLines(f *testing.F) {
	for _, s := range []string{"G94\nG1 X10 F600\n", "$H\n$X\n$$\n", "!~?\x18", "G93G1X1F60;(\n", "$100=5\nG4P99999\n",
		"G1 X999999999999 F1e9\n", "G91 G1 X1 A-3 F6\nM2\n%", "G92 X-0.0\nG1X-.F.\n"} {
		f.Add([]byte(s))
	}
	o := bench()
	o.Axes[0].Switches, o.Axes[0].Low, o.Axes[0].High, o.Axes[0].StepsName = true, -2, 302, "$100"
	o.Axes = append(o.Axes, virtual.Axis{Letter: 'A', Rotary: true, StepsPerUnit: 26.7, Acceleration: 100, Speed: 90, Endless: true})
	o.Set[rig.SoftLimits] = 1
	f.Fuzz(func(_ *testing.T, data []byte) {
		r := virtual.New(o)
		r.Write(data)
		r.Advance(10 * time.Second)
		r.Read(nil)
		r.Record().At(5)
	})
}

func FuzzFrames(f *testing.F) {
	f.Add([]byte("\x7e\x00\x00\x48\x50\x05"))
	f.Add([]byte("\x7e\x05\x00\x42\x40\x42\x0f\x00\x02\x3f\x06"))
	f.Add([]byte("\x7e\x7e\xff\x00\x00\x21\xdf\xf8\x7e\x00\x00\x5e\xa7\x77"))
	o := bench()
	o.Kind = rig.StepPlayer
	f.Fuzz(func(_ *testing.T, data []byte) {
		r := virtual.New(o)
		r.Write(data)
		r.Advance(time.Second)
		r.Read(nil)
	})
}
