import{a as e,c as t}from"./part-X4ITCMSV.js";import"./part-AJJ3ULMT.js";t(e().theme);var n=document.getElementById("print");n.hidden=!1;n.addEventListener("click",()=>window.print());
