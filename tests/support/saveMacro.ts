const macroLibraries = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE library:libraries PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "libraries.dtd">
<library:libraries xmlns:library="http://openoffice.org/2000/library" xmlns:xlink="http://www.w3.org/1999/xlink"><library:library library:name="Standard" library:link="false"/></library:libraries>`;

const macroLibrary = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "library.dtd">
<library:library xmlns:library="http://openoffice.org/2000/library" library:name="Standard" library:readonly="false" library:passwordprotected="false"><library:element library:name="Judge"/></library:library>`;

const macro = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "module.dtd">
<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Judge" script:language="StarBasic">Sub Save(source As String, target As String)
  Dim none()
  Dim how(0) As New com.sun.star.beans.PropertyValue
  how(0).Name = "FilterName"
  how(0).Value = "Calc MS Excel 2007 XML"
  doc = StarDesktop.loadComponentFromURL(source, "_blank", 0, none())
  doc.storeToURL(target, how())
  doc.close(True)
  StarDesktop.terminate()
End Sub
</script:module>`;

/** A macro that opens a file in a window and saves what stands there as .xlsx, by its files within a profile. */
export const saveMacro: ReadonlyMap<string, string> = new Map([
  ['basic/script.xlc', macroLibraries],
  ['basic/Standard/script.xlb', macroLibrary],
  ['basic/Standard/Judge.xba', macro],
]);
