package units

// Exact definitions from which factors are built (NIST SP 811, appendix B).
const (
	metrePerInch        = 0.0254
	kilogramPerPound    = 0.45359237
	standardGravity     = 9.80665
	newtonPerPoundForce = kilogramPerPound * standardGravity
	joulePerBtu         = 1055.05585262
)
