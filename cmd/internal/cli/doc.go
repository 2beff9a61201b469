// Package cli is the command line of seamrail: one file a command. A command
// reads its flags, calls one function and prints. Files are opened here and
// nowhere below.
package cli
