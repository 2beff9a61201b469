// Package sweep finds the resonances of what an axis carries: which frequencies the foot is
// shaken at and for how long, how a phone's record is laid beside that, what the load did
// at each, and which damped springs would have done that.
package sweep
