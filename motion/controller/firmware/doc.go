// Package firmware is what a board makes of the lines it is told: the
// controllers of home-built rigs that answer each line with ok, plan a ring of
// moves ahead, and cut what they plan into short slices of one step rate.
//
// It does what the board does, in the same order and with the same 24-bit
// numbers: greatest speeds at the junctions of moves, a pass back and a pass
// forward over the ring, trapezoids of speed, slices of a hundredth of a
// second, intervals of whole ticks, a step event shared out among the axes by
// Bresenham's line. Where the rig file describes another board, the constants
// are others and the order is the same. What it gives is held against motor
// steps measured outside (testdata/reference/takes).
//
// One line, from its characters to a step:
//
//	Parse -> Planner.Add -> Slicer.Next -> Timer.Beat -> Slice.Steps
//
// Play plays a whole program and hands out its slices.
package firmware
