package format

import (
	"io"

	"seamrail/export/handoff/otio"
)

var otioTimeline = []Format{{
	Export: Export{Place: 8, Name: "otio", Help: "the same as a timeline, in OpenTimelineIO JSON"},
	File:   "selects.otio", Purpose: "the same as a timeline, for an edit program",
	Takes: true,
	Write: func(of *Of, w io.Writer) error { return otio.Write(w, of.head(), handedOn(of)) },
}}
