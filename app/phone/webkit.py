# A browser of one page and nothing around it, for WebKitWebDriver: the page is as large as a phone's, and the profile is kept.
import sys
import gi

gi.require_version("Gdk", "3.0")
gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import Gdk, Gtk, WebKit2

if sys.argv[1] == "version":
    print("WebKitGTK %d.%d.%d" % (WebKit2.get_major_version(), WebKit2.get_minor_version(), WebKit2.get_micro_version()))
    sys.exit()

profile, width, height, colours = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), sys.argv[4]
Gtk.Settings.get_default().set_property("gtk-application-prefer-dark-theme", colours == "dark")
context = WebKit2.WebContext(website_data_manager=WebKit2.WebsiteDataManager(base_data_directory=profile + "/data", base_cache_directory=profile + "/cache"))
context.set_automation_allowed(True)


def opened(session):
    page = WebKit2.WebView(web_context=context, is_controlled_by_automation=True, settings=WebKit2.Settings(enable_write_console_messages_to_stdout=True))
    window = Gtk.Window(decorated=False, default_width=width, default_height=height)
    window.add(page)
    window.show_all()
    window.get_window().focus(Gdk.CURRENT_TIME)  # there is nobody else to give it
    page.grab_focus()
    page.connect("close", lambda page: window.destroy())
    window.connect("destroy", Gtk.main_quit)
    return page


def started(context, session):
    session.set_application_info(WebKit2.ApplicationInfo())
    session.connect("create-web-view", opened)


context.connect("automation-started", started)
Gtk.main()
