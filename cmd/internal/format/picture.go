package format

import (
	"io"

	"seamrail/export/table/pictures"
	"seamrail/plot/motionplot"
)

var pictureTable = []Format{{
	Export: Export{Place: 5, Name: "picture", Help: "CSV, one row a captured frame: smear, focus, clearance and the rest"},
	File:   "picture.csv", Purpose: "smear, focus and clearance at each captured frame",
	Needs: func(of *Of) error { return of.Pictured() },
	Write: func(of *Of, w io.Writer) error { return pictures.Write(w, of.Trajectory, of.head(), *of.Picture) },
}}

var pictureFigure = []Format{
	drawnPicture("png", "smear, magnification, focus and clearance drawn, for a screen"),
	drawnPicture("svg", "the same, for a web page or an editor"),
	drawnPicture("pdf", "the same, for paper"),
}

func drawnPicture(kind, purpose string) Format {
	return Format{
		File: "picture." + kind, Purpose: purpose, Needs: func(of *Of) error { return of.Pictured() },
		Write: func(of *Of, w io.Writer) error { return Figure(w, of.Job, kind, motionplot.Options{Picture: true}) },
	}
}
