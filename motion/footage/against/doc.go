// Package against lays what a take did over what its plan says: where frame 0 of the plan is in
// the recording, how late each round ran, how each axis shows in the picture, and what is left:
// play, lost steps, after-shake, blows, drift. It looks at no picture, only at how frames lie on
// the first one.
//
// The picture is taken to move in four ways, each in proportion to the axes: to the right, down,
// turned, grown. Turn and growth count as the pixels by which they move a point of the picture
// that is as far from its middle as points are on average, so that one number compares them all.
// By how much an axis moves the picture is fitted, never assumed.
//
// Frames are those of the recording, from 0, where nothing else is said; planned frames count
// from frame 0 of the first round. What most likely made a difference is a model: the explanation
// that lowers what is left over most, each paying for its unknowns.
package against
