package mintime_test

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/law/mintime"
)

// A run-up of 10 mm to 100 mm/s is too short to be made directly, so the
// carriage backs up first. Extent tells how far.
func ExampleLeg_Fastest() {
	runUp := mintime.Leg{Distance: 10, End: 100, Speed: 100, Acc: 500, Jerk: 5000}
	m, err := runUp.Fastest()
	if err != nil {
		fmt.Println(err)
		return
	}
	lo, hi := m.Extent()
	fmt.Printf("%.3f s, from %.2f to %.2f mm\n", m.Duration(), lo, hi)
	// Output: 0.520 s, from -4.79 to 10.00 mm
}

// Rail and pan go to their start together, on whole frames.
func ExampleFrames() {
	rail := mintime.Leg{Distance: 240, Speed: 100, Acc: 500, Jerk: 5000}
	pan := mintime.Leg{Distance: -30, Speed: 45, Acc: 90, Jerk: 900}
	frames, sec, err := mintime.Frames(exact.New(24000, 1001), rail, pan)
	if err != nil {
		fmt.Println(err)
		return
	}
	moves, err := mintime.Arrive(sec.Float(), mintime.MinAcc, rail, pan)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i := range moves {
		_, acc, _ := moves[i].Peaks()
		fmt.Printf("%d frames, acceleration up to %.1f\n", frames, acc)
	}
	// Output:
	// 65 frames, acceleration up to 454.1
	// 65 frames, acceleration up to 16.6
}
