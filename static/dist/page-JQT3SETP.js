import"./part-QRBGWZOG.js";import"./part-CC4RBNWC.js";import"./part-N6NOW2CK.js";import"./part-QQSS5HBG.js";import"./part-AJJ3ULMT.js";
