package drive

func newPlayer(*engine) machine { panic("later") }
