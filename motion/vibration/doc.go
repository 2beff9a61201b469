// Package vibration is the rig as a spring: how what the carriage carries swings
// beside it after each change of pace, and impulses that cancel the swing.
//
// One axis is one mass on one spring with one damper, shaken at its foot: z is
// how far the mass is ahead of where the carriage is, and
//
//	z'' + 2 D w z' + w^2 z = -a(t),  w = 2 pi f,
//
// with a the carriage's acceleration, f the natural frequency and D the
// damping as a share of critical (base excitation: D. J. Inman, Engineering
// Vibration, 4th ed., Pearson 2014, section 2.4, ISBN 978-0-13-287169-3).
// Positions are in units, mm or degrees; times are real seconds.
package vibration
