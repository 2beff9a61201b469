// Package optimal finds the motion law whose greatest speed, acceleration, jerk or
// snap is the least there can be, alone, within the limits of a rig, or among
// those that leave no after-shake, and proves how near to the least it is.
//
// With x the time from the middle of the move, in shares of the move, the n-th
// derivative f of a law that begins and ends at rest (and with no acceleration
// for n = 3, no jerk for n = 4) obeys
//
//	integral of f x^k = 0 for k < n-1,  and (-1)^(n-1) (n-1)! for k = n-1,
//
// and a law that leaves a spring at rest obeys the same with e^(gx) for x^k, g
// being the spring's complex frequency. So for any p = x^(n-1) + c1 f1 + ... of
// such functions, max|f| times the integral of |p| is at least (n-1)!. The p of
// least integral gives the greatest bound, and f of one size with the sign of p
// reaches it: best approximation in the mean and its dual (N. I. Achieser, Theory
// of Approximation, Dover 1992; D. G. Luenberger, Optimization by Vector Space
// Methods, Wiley 1997, ISBN 978-0-471-18117-0). Without a spring p is a Chebyshev
// polynomial of the second kind, and the peaks are 4, 32 and 384.
//
// Laws are the same backwards. Of all laws without a spring, or with one that
// nothing damps, the mean of a law and its mirror is no harsher and leaves no more,
// so that is no loss; with a damped one the bound is that of such laws only.
package optimal
