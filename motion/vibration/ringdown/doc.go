// Package ringdown finds how a rig swings from how it comes to rest: from the
// times and heights of a few peaks, or from a record of acceleration.
package ringdown
