// Package rig is the machine as its owner describes it: axes, their travel and
// limits, the mechanics between motor and carriage, and the controller. It is
// the only place where units become steps.
//
// Everything in a rig is in real seconds, whatever the clock of the shot.
package rig
