package wiring

// insulatedBound is how many insulated wires every way to join all nets has at least.
func (s *search) insulatedBound() int { return 0 }
