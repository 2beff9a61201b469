// Package setup is what lies under a shot: set-up files, which several shots have in
// common, and the shelf, files of one camera, lens or lamp each. A shot is laid over its
// set-ups value by value, and those over what they take from the shelf; every value
// keeps the file and the place it stands in.
package setup
