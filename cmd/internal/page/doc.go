// Package page serves the page on which a loop is designed by hand and eye: the
// assets of the page and the questions it asks. All planning is that of package job;
// the script in the browser draws and asks.
//
// It listens on this machine only. Every question carries a key that is made
// anew each time and that only the page opened by this program knows; see guard.
package page
