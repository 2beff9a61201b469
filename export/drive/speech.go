package drive

import (
	"fmt"
	"math"
	"time"

	"seamrail/motion/plain"
)

// holds says what a controller that cannot be held still does.
func holds(lines int, moves time.Duration) string {
	return fmt.Sprintf("it has no hold: it still has %s and moves for up to %.1f s more", plain.Counted(lines, "line"), max(moves.Seconds(), 0))
}

// heldBack says what a controller that is held keeps.
func heldBack(lines int, motion float64, slows time.Duration) string {
	return fmt.Sprintf("it slows down within %.1f s, and keeps %s and %.1f s of motion", slows.Seconds(), plain.Counted(lines, "line"), max(motion, 0))
}

// outOfStep says that a pass took late seconds more than planned, give or take
// doubt.
func outOfStep(late, doubt, frame float64) string {
	than := "longer"
	if late < 0 {
		than = "less"
	}
	late = math.Abs(late)
	return fmt.Sprintf("the pass took %.1f ms %s than planned, give or take %.1f ms, %.1f captured frames: look at it before you keep it",
		late*1000, than, doubt*1000, late/frame)
}
