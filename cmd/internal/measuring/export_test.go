package measuring

// Pictures are all that are drawn beside questions.
func Pictures() []string {
	return []string{rulerPicture, turnPicture, playPicture, trialPicture, markPicture, swingPicture, shutterPicture}
}

// Drawn is a picture as it is shown.
var Drawn = drawn
