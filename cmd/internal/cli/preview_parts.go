package cli

import "io"

// folderWidth is how wide the folder's preview is, in px: enough to judge a
// move by, and quick to draw.
const folderWidth = 320

// previewParts are the loop as the lens sees it, and its seam, for the folder.
// A loop of more pictures than an animation holds has every nth.
func (j job) previewParts() contents {
	f, _, err := j.finder(folderWidth, false)
	if err != nil {
		return without(err, "preview.png", "seam.png")
	}
	o := &PreviewOptions{Stills: usualStills, Every: f.Every()}
	_, loop := o.loop(f)
	strip := func(w io.Writer) error {
		f, _, err := j.finder(stillWidth, false)
		if err != nil {
			return err
		}
		_, fill := o.strip(j, f)
		return fill(w)
	}
	return with(
		part{"preview.png", "what the lens sees, as a loop that a browser plays", loop},
		part{"seam.png", "stills around the seam, to see whether it goes on", strip},
	)
}
