package format

import (
	"io"

	"seamrail/export/looks"
	"seamrail/plot/figure"
)

var pictureTable = []Format{{
	Export: Export{Place: 5, Name: "picture", Help: "CSV, one row a captured frame: smear, focus, clearance and the rest"},
	File:   "picture.csv", Purpose: "smear, focus and clearance at each captured frame",
	Needs: func(of *Of) error { return of.Pictured() },
	Write: func(of *Of, w io.Writer) error { return looks.Write(w, of.Trajectory, of.head(), *of.Picture) },
}}

var pictureFigure = drawn("picture", "smear, magnification, focus and clearance drawn, for a screen",
	[]string{"png", "svg", "pdf"}, func(of *Of) error { return of.Pictured() },
	func(of *Of, w io.Writer, kind string) error {
		return Figure(w, of.Job, kind, figure.Options{Picture: true})
	})
