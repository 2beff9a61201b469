// Package motor is what turns an axis, seen from the motor's shaft: the torque a
// motion asks of it, what the motor has at that speed, and what the load does
// when its current is cut.
//
// Lengths are mm and angles degrees ("units"), forces N, torques N m, masses kg,
// moments of inertia kg mm2, speeds of the motor turns a second.
//
// A linear load of mass m on a rail at angle i to the level needs
//
//	F = m a + m g sin i + friction
//
// of which F rho reaches the shaft, rho being what the load moves for a radian of
// the motor, and the motor's own rotor needs J alpha beside it (Norton, Design of
// Machinery; R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering
// Design, 8th ed., McGraw-Hill 2006, chapter 8, ISBN 978-0-07-331260-6).
package motor
