import"./part-G3IN3NXM.js";import"./part-CC4RBNWC.js";import"./part-N6NOW2CK.js";import"./part-X4ITCMSV.js";import"./part-AJJ3ULMT.js";
