// Package virtual is a rig made of software: a controller with its receive
// buffer, parser, look-ahead planner, step timer and real-time bytes, the wire
// before it and the motors and limit switches behind it.
//
// It plans from what it is sent and from nothing else, with a parser, a planner
// and a step timer of its own, so that it checks what the exports foretell. It
// lives on a virtual clock, so that an hour of loops takes seconds, and every
// run of the same events is the same to the picosecond.
//
// A Rig is the board, advanced by hand. A World puts an operator beside it, for
// the driving engine; a Port lets it live in real time.
//
// One move, from a line on the wire to a step:
//
//	Write -> wire -> receive -> ring -> readByte -> obey -> follow -> move
//	-> placeBlock -> planner.add -> prepare -> generator.next -> load
//	-> finishSlice -> countsAfter
package virtual
