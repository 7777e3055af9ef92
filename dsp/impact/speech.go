package impact

func (d dice) talk(voices int, level float64) func(*scene) { return func(*scene) {} }
func (d dice) talkBetween(level float64) func(*scene)      { return func(*scene) {} }
