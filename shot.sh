# shot.sh name...: page of the pictures side by side
cd /tmp/pics
html="<body style='margin:4px;background:#888'>"
for n in "$@"; do html="$html<div style='display:inline-block;width:540px;vertical-align:top;margin:3px'>$(cat $n.svg)</div>"; done
echo "$html" > shot.html
chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --window-size=${W:-1680},${H:-900} --screenshot=/tmp/pics/shot.png file:///tmp/pics/shot.html >/dev/null 2>&1
