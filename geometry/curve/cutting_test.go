package curve

func init() { ForCutting() }
