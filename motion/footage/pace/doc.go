// Package pace lays a take over its plan where the picture as a whole does not move: a product
// turns before a plain ground, and no frame lies on another. What is left is how much the picture
// changes from frame to frame, and which frames are alike. Of these come where frame 0 is, how
// late each round ran, and whether moves and rests came when the plan has them. How far and which
// way axes went they do not tell, and it is said so.
// Where what turns does so evenly, how each frame lies on the one before tells the times better: what
// a lens goes in on grows, with a sign, whatever face of it is seen.
//
// For small steps the square of the change is a quadratic form of what the axes go from one frame
// to the next: the first term of how a picture differs from itself, moved a little. What is
// changed by a degree depends on what is seen of the product, so the form has a gain that varies
// with the position, as smoothly as the frames ask for. Both are fitted, never assumed.
//
// Frames are those of the recording, from 0, fractions included, where nothing else is said;
// planned frames count from frame 0 of the first round.
package pace
