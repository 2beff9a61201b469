package format

import (
	"io"

	"seamrail/export/reaches"
)

// reachesList is how far each axis goes.
var reachesList = []Format{{
	Export: Export{Place: 0, Name: "reaches", Help: "text, how far each axis goes"},
	File:   "reaches.txt", Purpose: "how far each axis goes",
	Write: func(of *Of, w io.Writer) error { return reaches.Write(w, of.Plan) },
}}
