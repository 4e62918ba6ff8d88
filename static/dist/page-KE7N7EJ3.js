import"./part-BCI2CTJJ.js";import"./part-CC4RBNWC.js";import"./part-N6NOW2CK.js";import"./part-KVBITZZM.js";import"./part-AJJ3ULMT.js";
