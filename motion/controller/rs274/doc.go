// Package rs274 knows the numbers that a controller reads, as the words of
// RS-274/NGC write them: how positions and feeds are rounded, and what a feed
// is told for a block. Those who write the words and those who foretell what a
// controller makes of them share it.
package rs274
