// Package shot reads a shot file: the clock, the take, the rig it is filmed
// with and what every axis does during the loop.
//
// A shot file counts in on-screen time: its frames are frames of the timeline,
// its seconds are seconds of the finished picture, and a speed is over those
// seconds. Whatever a Shot holds as a time is already real, the time of the
// machine: on-screen seconds times the clock's retime.
package shot
