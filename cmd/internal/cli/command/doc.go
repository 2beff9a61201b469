// Package command is what the commands share: the flags of a shot, where they read and
// print, how their arguments are checked, and bars for what takes long.
package command
