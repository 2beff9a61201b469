// Package report says in words what a plan will do, how close it comes to the
// limits and whether it closes; and the same as JSON for other programs.
package report
