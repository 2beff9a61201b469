// Package calibrate turns what a person reads off a rig into numbers of its rig file,
// each with its uncertainty: steps a unit from a ruler or a turn, play from a mark
// approached both ways, what a ladder of trials has proven, how late a shutter is.
//
// Uncertainties are standard ones, put together as JCGM 100 says: a resolution is
// spread evenly (4.3.7), scatter is that of a mean (4.2.3), what is independent adds by
// squares (5.1.2), and the bound that is told is the one of 95 % by Student's factor for
// the degrees of freedom there are (G.4.1). No motion, port or file is known here.
package calibrate
