// Package cli is the command line of seamrail: a file or a folder a command. A command
// reads its flags, calls one function and prints.
package cli
