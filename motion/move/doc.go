// Package move is what an axis may do during the loop: one file a move.
//
// A move is two types in its file: its keys, as the shot file has them, and its
// value, which answers what Move asks of every move. What only some can do is a
// small interface beside it (can.go), and whoever wants to know asks for that, never
// for the kind. The keys are named in Raw, which is the list of all moves.
package move
